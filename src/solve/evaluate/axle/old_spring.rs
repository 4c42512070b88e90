//! The old spring by whatever was measured: its rate by each way, and its curve before the load places it.

use crate::base::math::fuse;
use crate::base::math::spread::{self, Measured};
use crate::base::units::{Force, Length, Quantity, Ratio, SpringRate};
use crate::job::read::WireSizes;
use crate::job::{LeafBy, RateBy, SpringKind};
use crate::solve::answer::{Cut, LeafFacts, OldSpring, Standing};
use crate::solve::evaluate::axle::known::{Known, Readings};
use crate::solve::evaluate::axle::standing;
use crate::trade::spring::{
    Bar, Coil, Leaf, LeafPack, LeafRow, LeafTest, Points, Spring, Stack, TorsionBar, Wire, press,
};
use crate::trade::wheel::ForceTravel;

impl Known<'_> {
    /// The old spring as far as it was measured by itself; where its seats are follows from the load.
    pub fn old_spring_itself(&self, facts: &mut OldSpring) -> Option<Spring> {
        self.read_rates(facts);
        let data = &self.axle.spring;
        match data.kind {
            SpringKind::Coil | SpringKind::WithHelper | SpringKind::Leaf => {
                let rate = self.counted_rate(facts)?;
                self.spring_of_rate(rate)
            }
            SpringKind::Progressive => self.points().map(Spring::Points),
            SpringKind::TorsionBar => {
                let (bar, arm) = (self.bar()?, self.reading.typed(&data.bar.arm)?);
                Some(Spring::Bar(TorsionBar {
                    twist_rate_nm_per_rad: bar.twist_rate().si(),
                    arm_m: arm.si(),
                    free_angle_rad: 0.0,
                }))
            }
        }
    }
}

impl Readings<'_> {
    /// The rates by each way to measure the spring itself.
    pub fn read_rates(&self, facts: &mut OldSpring) {
        match self.axle.spring.kind {
            SpringKind::Coil | SpringKind::WithHelper => self.coil_rates(facts),
            SpringKind::Leaf => {
                facts.leaf = self.leaf();
                facts.leaf_rate = match self.axle.spring.leaf.by {
                    LeafBy::Stated => self.reading.typed(&self.axle.spring.rate),
                    LeafBy::Test => facts.leaf.and_then(|l| l.test).map(|t| t.rate),
                    LeafBy::Sizes => facts.leaf.and_then(|l| l.by_sizes),
                };
            }
            SpringKind::Progressive | SpringKind::TorsionBar => {}
        }
    }

    /// The rate by the way that was chosen, N/m along the spring.
    pub fn own_rate(&self, facts: &OldSpring) -> Option<f64> {
        if self.axle.spring.kind == SpringKind::Leaf {
            return facts.leaf_rate.map(Quantity::si);
        }
        let measured = match self.axle.spring.rate_by {
            RateBy::Stated => facts.stated,
            RateBy::Wire => facts.by_wire,
            RateBy::Press => facts.by_press,
            RateBy::Together => facts.together,
        };
        measured.map(|m| m.value)
    }

    /// The same, or by what else was measured of the spring itself.
    pub fn any_rate(&self, facts: &OldSpring) -> Option<f64> {
        let others = || {
            let known: Vec<Measured> = [facts.by_wire, facts.by_press].into_iter().flatten().collect();
            fuse::by_own_u(&known).map(|m| m.value)
        };
        self.own_rate(facts).or_else(others)
    }

    /// A spring of this kind with a rate, N/m, of a stack the main coil's: a coil at its own free length if that was
    /// measured. `None` for a kind that one number does not describe, and for a stack without its helper.
    pub fn spring_of_rate(&self, rate_n_per_m: f64) -> Option<Spring> {
        let free = self.reading.typed(&self.axle.spring.free_length).unwrap_or(Length::from_si(0.0));
        let coil = Coil::by_rate(SpringRate::from_si(rate_n_per_m), free, None);
        match self.axle.spring.kind {
            SpringKind::Coil => Some(Spring::Coil(coil)),
            SpringKind::WithHelper => Some(Spring::Stack(Stack { helper: self.helper()?, main: coil })),
            SpringKind::Leaf => Some(Spring::Leaf(Leaf { rate_n_per_m, free_height_m: 0.0 })),
            SpringKind::Progressive | SpringKind::TorsionBar => None,
        }
    }

    /// The helper coil, once all three of its numbers are known.
    pub fn helper(&self) -> Option<Coil> {
        let helper = &self.axle.spring.helper;
        let (free, solid): (Length, Length) =
            (self.reading.typed(&helper.free_length)?, self.reading.typed(&helper.solid_length)?);
        (solid < free).then_some(Coil::by_rate(self.reading.typed(&helper.rate)?, free, Some(solid)))
    }

    fn coil_rates(&self, facts: &mut OldSpring) {
        let data = &self.axle.spring;
        facts.stated = self.reading.typed(&data.rate).and_then(|_| self.reading.measured(&data.rate));
        facts.by_wire = self.wire(&data.wire).and_then(|wire| self.wire_rate(&data.wire, &wire));
        (facts.by_press, facts.pressed) = self.press().unzip();
        if let (Some(wire), Some(pressed)) = (facts.by_wire, facts.by_press) {
            facts.together = fuse::by_own_u(&[wire, pressed]);
        }
    }

    /// Wire and coils, as far as needed for a rate.
    pub fn wire(&self, data: &WireSizes) -> Option<Wire> {
        let diameter: Length = self.reading.typed(&data.diameter)?;
        let outside: Length = self.reading.typed(&data.outside_diameter)?;
        let active: Ratio = match self.reading.typed(&data.active_coils) {
            Some(active) => active,
            None if data.active_coils.is_blank() => {
                let total: Ratio = self.reading.typed(&data.total_coils)?;
                total - Ratio::from_si(data.ends.dead_coils()?)
            }
            None => return None,
        };
        let modulus = self.reading.known(&data.shear_modulus)?;
        let mean = outside - diameter;
        (mean > diameter && active.si() > 0.0).then_some(Wire {
            diameter_m: diameter.si(),
            mean_m: mean.si(),
            active: active.si(),
            shear_modulus_pa: modulus.si(),
            ends: data.ends,
        })
    }

    /// Rate by wire with its ±: the mean diameter moves with the wire, since the outside was measured.
    fn wire_rate(&self, data: &WireSizes, wire: &Wire) -> Option<Measured> {
        let coils = if data.active_coils.is_blank() { &data.total_coils } else { &data.active_coils };
        let inputs = [
            self.reading.measured(&data.diameter)?,
            self.reading.measured(&data.outside_diameter)?,
            self.reading.measured(&data.shear_modulus)?,
            Measured { value: wire.active, u: self.reading.measured(coils)?.u },
        ];
        let found = spread::propagate(inputs, |[d, outside, g, active]| {
            Wire { diameter_m: d, mean_m: outside - d, active, shear_modulus_pa: g, ends: wire.ends }.rate().si()
        });
        Some(no_better_than_itself(found))
    }

    /// Rate by press with its ±, the gauge's scale error common to both loads; and what it comes from: the force added and how
    /// far the spring gave way.
    fn press(&self) -> Option<(Measured, (Force, Length))> {
        let (r, data) = (self.reading, &self.axle.spring.press);
        let (first, second) = (r.typed(&data.first_load)?.si(), r.typed(&data.second_load)?.si());
        let lengths = [r.measured(&data.first_length)?, r.measured(&data.second_length)?];
        let inputs = [lengths[0], lengths[1], r.measured(&data.gauge_factor)?];
        let rate = |[long, short, factor]: [f64; 3]| {
            let at = |l: f64, f: f64| (Length::from_si(l), Force::from_si(f * factor));
            press::rate(at(long, first), at(short, second)).map(Quantity::si)
        };
        let [long, short, factor] = inputs.map(|m| m.value);
        rate([long, short, factor])?;
        let found = spread::propagate(inputs, |x| rate(x).unwrap_or(f64::NAN));
        let of = (Force::from_si((second - first) * factor), Length::from_si(long - short));
        Some((no_better_than_itself(found), of))
    }

    fn points(&self) -> Option<Points> {
        let filled = self.axle.spring.points.iter().filter(|p| !(p.length.is_blank() && p.load.is_blank()));
        let points: Option<Vec<(f64, f64)>> =
            filled.map(|p| Some((self.reading.typed(&p.length)?.si(), self.reading.typed(&p.load)?.si()))).collect();
        Points::through(&points?)
    }

    /// The torsion bar's sizes.
    pub fn bar(&self) -> Option<Bar> {
        let data = &self.axle.spring.bar;
        let bar = Bar {
            diameter_m: self.reading.typed(&data.diameter)?.si(),
            inside_m: self.reading.known(&data.inside_diameter)?.si(),
            length_m: self.reading.typed(&data.length)?.si(),
            shear_modulus_pa: self.reading.known(&data.shear_modulus)?.si(),
        };
        (bar.inside_m < bar.diameter_m).then_some(bar)
    }

    fn leaf(&self) -> Option<LeafFacts> {
        let rows = self.axle.spring.leaf.rows.iter();
        let rows: Option<Vec<LeafRow>> = rows
            .filter(|r| !(r.load.is_blank() && r.loading.is_blank()))
            .map(|r| {
                Some(LeafRow {
                    load: self.reading.typed(&r.load)?,
                    loading: self.reading.typed(&r.loading)?,
                    unloading: self.reading.typed(&r.unloading),
                })
            })
            .collect();
        let test = rows.as_deref().and_then(LeafTest::of);
        let pack = self.leaf_pack();
        Some(LeafFacts { test, by_sizes: pack.map(|p| p.rate()), pack, ..LeafFacts::default() })
    }

    /// The leaf's sizes.
    pub fn leaf_pack(&self) -> Option<LeafPack> {
        let data = &self.axle.spring.leaf;
        let span: Length = self.reading.typed(&data.span)?;
        let leaves: Ratio = self.reading.typed(&data.leaves)?;
        let full_length: Ratio = self.reading.known(&data.full_length)?;
        let working = span - self.reading.known(&data.clamped)?;
        (working.si() > 0.0 && full_length <= leaves).then_some(LeafPack {
            modulus_pa: self.reading.known(&data.modulus)?.si(),
            leaves: leaves.si(),
            full_length: full_length.si(),
            width_m: self.reading.typed(&data.width)?.si(),
            thickness_m: self.reading.typed(&data.thickness)?.si(),
            working_span_m: working.si(),
        })
    }
}

impl Known<'_> {
    /// The old coil's solid length: measured, or by its wire and ends.
    pub fn solid_length(&self) -> Option<Length> {
        let data = &self.axle.spring;
        let solid = self.reading.typed(&data.solid_length).or_else(|| self.wire(&data.wire)?.solid_length());
        solid.filter(|_| self.lengths_known && data.kind.is_coil())
    }

    /// What cutting coils off the old spring would do.
    pub fn cut(&self, old: &ForceTravel, before: Option<&Standing>) -> Option<Cut> {
        let coils: Ratio = self.reading.typed(&self.axle.spring.cut)?;
        let Spring::Coil(coil) = &old.spring else { return None };
        let wire = self.wire(&self.axle.spring.wire)?;
        let cut = wire.cut(coils.si())?;
        let free = Length::from_si(coil.free_length_m);
        let pitch = wire.pitch(free).filter(|_| self.lengths_known)?;
        let rate = SpringRate::from_si(coil.rate_n_per_m * wire.active / cut.active);
        let free_length = free - pitch * coils.si();
        let solid = coil.solid_length_m.map(|s| Length::from_si(s - wire.diameter_m * coils.si()));
        let curve = ForceTravel { spring: Spring::Coil(Coil::by_rate(rate, free_length, solid)), ..old.clone() };
        let sprung = self.masses.sprung.after?;
        let on = standing::at_rest(&curve, sprung, self.load(sprung), self.travel.stop)?;
        let at_droop = self.travel.droop.map(|z| self.spring_length.length(-z));
        Some(Cut {
            coils,
            pitch,
            rate,
            whole_length: free,
            free_length,
            length: Some(self.spring_length.length(on.travel)),
            height_change: before.map(|b| b.travel - on.travel),
            at_droop,
            seat: at_droop.map(|length| free_length - length),
            on,
        })
    }
}

/// A ± that reaches values that cannot be says no more than that the value is not known to better than its own size.
fn no_better_than_itself(found: Measured) -> Measured {
    if found.u.is_finite() { found } else { Measured { u: found.value, ..found } }
}
