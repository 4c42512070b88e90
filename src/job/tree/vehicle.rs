//! The shop, the customer and the vehicle as a whole; prices, limits and how sure a number is.

use serde::{Deserialize, Serialize};

use super::RoadClass;
use super::record::{self, record};
use crate::base::language::{Language, worded};
use crate::base::units::{Angle, Entry, Frequency, Length, Mass, Ratio, Stress, Velocity};

record! {
    /// The shop, as printed on its sheets.
    pub struct Shop {
        /// Its name.
        pub name: String,
        /// Address, telephone.
        pub contact: String,
        /// Who fills in the job.
        pub fitter: String,
        /// Language of the sheets, as its two letters; blank is English.
        pub language: String,
    }

    /// The customer.
    pub struct Customer {
        /// Name.
        pub name: String,
        /// Address, telephone.
        pub contact: String,
    }

    /// The order to a supplier, as a whole.
    pub struct Order {
        /// The shop's number for it.
        pub number: String,
        /// The day on which the parts must be there.
        pub needed: String,
        /// Where they go to.
        pub deliver_to: String,
    }

    /// What a supplier asks of the parts of one axle, and nothing else needs.
    pub struct AxleOrder {
        /// Ends of a coil, and how they lie to each other.
        pub ends: String,
        /// Paint or coating.
        pub finish: String,
        /// Hand of a coil, where it matters.
        pub hand: String,
        /// Camber of a leaf at ride height: from the line through its eyes to its main leaf at the centre bolt, + with
        /// the eyes up.
        pub camber: Entry<Length>,
        /// From the fixed eye of a leaf to its centre bolt.
        pub centre_bolt: Entry<Length>,
        /// Which eye of a leaf is fixed: front or rear.
        pub fixed_eye: String,
        /// Eyes of a leaf and their bushes.
        pub eyes: String,
        /// Centre bolt of a leaf: thread, length, head.
        pub bolt: String,
        /// Clips of a leaf.
        pub clips: String,
        /// U-bolts of a leaf: diameter of the axle, width inside, thread.
        pub u_bolts: String,
        /// Length of a torsion bar over its splines.
        pub bar_length: Entry<Length>,
        /// Splines of a torsion bar, both ends.
        pub splines: String,
        /// How the left torsion bar is wound, seen from the end of its arm.
        pub bar_direction: String,
        /// The two points between which the lengths of a strut are measured.
        pub damper_points: String,
        /// Upper mount of a damper.
        pub upper_mount: String,
        /// Lower mount of a damper.
        pub lower_mount: String,
        /// Bore of a damper's tube.
        pub bore: Entry<Length>,
        /// The largest diameter that a damper has room for.
        pub body: Entry<Length>,
        /// From a damper's lower mount up to the spring seat on it.
        pub spring_plate: Entry<Length>,
        /// Between the seats of an air bag at ride height.
        pub bag_height: Entry<Length>,
        /// The largest diameter that an air bag has room for.
        pub bag_room: Entry<Length>,
        /// Mounts and air fitting of an air bag.
        pub bag_fittings: String,
    }

    /// The vehicle.
    pub struct Vehicle {
        /// What it is.
        pub name: String,
        /// Registration or chassis number.
        pub identification: String,
        /// What is being changed.
        pub change: String,
        /// Front to rear axle.
        pub wheelbase: Entry<Length>,
        /// Hitch ball behind the rear axle.
        pub hitch: Entry<Length>,
        /// The whole vehicle's plated rating.
        pub rating: Entry<Mass>,
        /// Distance at which headlamp aim is checked.
        pub lamp_distance: Entry<Length>,
        /// Its body, for the drawing on the customer's sheet.
        pub body: BodyShape,
    }

    /// Heights, pitch and the manoeuvres considered.
    pub struct Chassis {
        /// Height of the whole vehicle's centre of gravity.
        pub cg_height: Entry<Length>,
        /// The weighing with one axle raised, which gives that height.
        pub lift: Lift,
        /// Radius of gyration of the sprung body in pitch.
        pub pitch_radius: Entry<Length>,
        /// Radius of gyration of the sprung body about its roll axis.
        pub roll_radius: Entry<Length>,
        /// Braking considered, in g.
        pub braking: Entry<Ratio>,
        /// Share of the dive that the front suspension's geometry takes away.
        pub anti_dive: Entry<Ratio>,
        /// Cornering considered, in g.
        pub cornering: Entry<Ratio>,
        /// Speed over one hump.
        pub speed: Entry<Velocity>,
        /// Height of the hump.
        pub hump_height: Entry<Length>,
        /// Length of the hump.
        pub hump_length: Entry<Length>,
        /// Cross weight that is wanted.
        pub cross_wanted: Entry<Ratio>,
        /// Roll that is wanted.
        pub roll: WantedRoll,
    }

    /// Roll that is wanted, tyres included; blank: as before the change.
    pub struct WantedRoll {
        /// Least roll wanted, at 1 g.
        pub gradient_low: Entry<Angle>,
        /// Most roll wanted, at 1 g.
        pub gradient_high: Entry<Angle>,
        /// Least front share of the lateral load transfer.
        pub front_low: Entry<Ratio>,
        /// Greatest front share of the lateral load transfer.
        pub front_high: Entry<Ratio>,
        /// Lean of an axle against the body at which the stress of its bar is calculated.
        pub lean: Entry<Angle>,
    }

    /// The rough road considered.
    pub struct Road {
        /// How rough it is.
        pub class: RoadClass,
        /// Depth of the pothole.
        pub hole: Entry<Length>,
        /// Any number: which of the many roads of its class.
        pub seed: Entry<Ratio>,
    }

    /// A weighing with one axle raised and the suspension locked.
    pub struct Lift {
        /// How far the wheels of the other axle were raised.
        pub rise: Entry<Length>,
        /// Reading of the axle that stays down, level.
        pub level: Entry<Mass>,
        /// Reading of the same axle with the other one raised.
        pub lifted: Entry<Mass>,
        /// Height of the wheel centres.
        pub hub_height: Entry<Length>,
    }

    /// An anti-roll bar.
    pub struct RollBar {
        /// Its diameter.
        pub diameter: Entry<Length>,
        /// Bore of a hollow bar.
        pub inside_diameter: Entry<Length>,
        /// Length that twists.
        pub length: Entry<Length>,
        /// From the bar's axis square to the line of its link.
        pub blade: Entry<Length>,
        /// Link travel over wheel travel, in roll.
        pub ratio: Entry<Ratio>,
        /// Shear modulus of the steel.
        pub shear_modulus: Entry<Stress>,
        /// Step between the diameters on offer.
        pub step: Entry<Length>,
        /// Diameter of the anti-roll bar that is fitted with the new springs; blank: the old one stays.
        pub new_diameter: Entry<Length>,
    }

    /// What things cost for one axle, in one currency.
    pub struct Prices {
        /// The currency, in words or as its sign.
        pub currency: String,
        /// A pair of spacers.
        pub spacers: Entry<Ratio>,
        /// A pair of leaves added to old ones.
        pub added_leaves: Entry<Ratio>,
        /// A pair of springs, when none is taken from a list.
        pub springs: Entry<Ratio>,
        /// A pair of dampers.
        pub dampers: Entry<Ratio>,
        /// Work: springs or spacers of one axle out and in.
        pub work: Entry<Ratio>,
        /// Labour for the dampers in addition.
        pub damper_work: Entry<Ratio>,
        /// An anti-roll bar with its bushes, fitted.
        pub roll_bar: Entry<Ratio>,
    }

    /// Default uncertainty of a number by its origin; each as limits.
    pub struct Certainty {
        /// A guess, or a default that is one; share of the value.
        pub guessed: Entry<Ratio>,
        /// From a catalogue, a plate or a seller; share of the value.
        pub quoted: Entry<Ratio>,
        /// From a parts ledger; share of the value.
        pub ledger: Entry<Ratio>,
        /// One reading of the scales.
        pub scales: Entry<Mass>,
        /// A length read off a tape.
        pub tape: Entry<Length>,
    }

    /// The shop's limits; each is a warning, never a refusal.
    pub struct Limits {
        /// Left against right on one axle, share of the axle.
        pub left_right: Entry<Ratio>,
        /// Cross weight either side of one half.
        pub cross: Entry<Ratio>,
        /// Unsprung share of the reading, independent.
        pub unsprung_independent: Entry<Ratio>,
        /// Unsprung share of the reading, beam axle.
        pub unsprung_beam: Entry<Ratio>,
        /// Lowest credible ride frequency.
        pub frequency_low: Entry<Frequency>,
        /// Highest credible ride frequency.
        pub frequency_high: Entry<Frequency>,
        /// Lowest rear over front frequency.
        pub rear_front_low: Entry<Ratio>,
        /// Highest rear over front frequency.
        pub rear_front_high: Entry<Ratio>,
        /// Share of a rating from which it is amber.
        pub rating_amber: Entry<Ratio>,
        /// Least room to coil bind at metal.
        pub bind_room: Entry<Length>,
        /// Least grip of the spring on its seats at full droop.
        pub seat_room: Entry<Length>,
        /// Least room of the damper at both ends.
        pub damper_room: Entry<Length>,
        /// ± of a bought spring's rate that states none.
        pub rate_tolerance: Entry<Ratio>,
        /// ± of a bought spring's free length.
        pub length_tolerance: Entry<Length>,
        /// How far a weight after fitting may be from what was predicted, share of it.
        pub fitted_weight: Entry<Ratio>,
        /// How far a height may be from what was predicted or is wanted.
        pub fitted_height: Entry<Length>,
        /// Adhesion on a suspension bench from which it counts as good.
        pub bench_good: Entry<Ratio>,
        /// Adhesion from which it counts as fair.
        pub bench_fair: Entry<Ratio>,
        /// Adhesion from which it counts as weak; below it is poor.
        pub bench_weak: Entry<Ratio>,
        /// Least phase angle that passes.
        pub bench_phase: Entry<Angle>,
        /// Left against right on the bench, as a share of the larger reading.
        pub bench_left_right: Entry<Ratio>,
    }
}

impl Shop {
    /// Its sheets are in this language, unless one was chosen. English need not be named.
    pub fn speak(&mut self, language: Language) {
        if self.language.is_empty() && language != Language::English {
            self.language = language.key().to_owned();
        }
    }
}

worded! {
    /// What a vehicle looks like from the side.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
    pub enum BodyShape {
        /// Not stated: an outline that is none of the others.
        #[default]
        NotSaid => Word("not stated"),
        /// A car.
        Car => Word("car"),
        /// A van or a bus.
        Van => Word("van"),
        /// A pick-up.
        PickUp => Word("pick-up"),
        /// A lorry with a box or a bed.
        Truck => Word("truck"),
    }
}
