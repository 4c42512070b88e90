//! The sections of a step: landmarks of its form, each with the pictures that belong to it.

use eframe::egui::Rect;

use crate::base::language::worded;

worded! {
    /// A part of a form under a name of its own, in sentence case and short enough for the rail. The pictures follow
    /// the one that is worked in.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
    pub enum Section {
        /// The four scale readings, before and after.
        Readings => Word("Scale readings"),
        /// What comes out and goes in.
        Ledger => Word("Parts out and in"),
        /// What was aboard on the scales.
        Aboard => Word("Load aboard"),
        /// Weighed again, pads, axles weighed whole.
        MoreReadings => Word("More readings"),
        /// Name, wheelbase, unsprung mass.
        Masses => Word("Vehicle"),
        /// What guides the wheel, which kind of spring.
        Suspension => Word("Suspension"),
        /// Spring travel for wheel travel.
        Ratio => Word("Motion ratio"),
        /// The spring that is fitted.
        OldSpring => Word("Old spring"),
        /// Room up and down, bump stop, rubber, tyre.
        Travel => Word("Wheel travel"),
        /// Other ways to the wheel rate.
        Routes => Word("Cross-checks"),
        /// What the axle should do.
        Target => Word("Ride target"),
        /// What can be bought.
        Stock => Word("Available springs"),
        /// An air bag that helps.
        Bag => Word("Air bag"),
        /// The spring chosen from the list.
        Selected => Word("Selected spring"),
        /// The shop's list.
        PartsList => Word("Parts list"),
        /// What a spring must fit.
        Fit => Word("Requirements"),
        /// What parts and work cost.
        Prices => Word("Prices"),
        /// What else could be done.
        Plans => Word("Plans"),
        /// How well damped.
        Damping => Word("Damping target"),
        /// Damper travel for wheel travel.
        DamperRatio => Word("Damper travel"),
        /// The damper that is fitted.
        OldDamper => Word("Old damper"),
        /// The damper that may be bought.
        NewDamper => Word("Candidate damper"),
        /// What the plate permits.
        Ratings => Word("Ratings"),
        /// How it is really driven.
        Cases => Word("Load cases"),
        /// Pitch and bounce.
        Pitch => Word("Pitch and bounce"),
        /// Roll.
        Roll => Word("Roll"),
        /// The roll that is wanted, and the bars for it.
        TargetRoll => Word("Target roll"),
        /// Cross weight.
        Corners => Word("Corner weights"),
        /// The shop's limits and default uncertainties.
        Limits => Word("Limits"),
        /// What it drives over.
        Road => Word("The road"),
        /// What recordings of bounces showed.
        Bounce => Word("Bounce test"),
        /// What recordings of a drive showed.
        Drive => Word("Recorded drive"),
        /// What a suspension bench measured.
        Bench => Word("Suspension bench"),
        /// Which sheet, on what paper.
        Print => Word("Print"),
        /// Names on the sheet.
        Names => Word("Names"),
        /// Weighed and measured on the new springs.
        Fitted => Word("After fitting"),
        /// Anything else.
        Notes => Word("Notes"),
    }
}

/// Number of frames in which pictures are brought into view.
const FRAMES: u8 = 4;

/// Where one section of the form begins, points from the top of the window.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Begins {
    section: Section,
    top: f32,
}

/// The sections of the step that is open, and the one that is worked in.
#[derive(Debug, Default)]
pub struct Sections {
    form: Vec<Begins>,
    names: Vec<Section>,
    pictures: Vec<(Vec<Section>, Rect)>,
    form_ends: f32,
    clip: Option<Rect>,
    now: Option<Section>,
    wanted: Option<Section>,
    scrolled_to: f32,
    /// Number of further frames in which the pictures are brought into view: what unfolds takes some to find its place.
    pub(in crate::gui) follow: u8,
}

impl Sections {
    /// Those of the form, from above, as last drawn.
    pub fn names(&self) -> &[Section] {
        &self.names
    }

    /// The one that is worked in.
    pub fn now(&self) -> Option<Section> {
        self.now
    }

    /// What can be seen of the pictures of the section that is worked in, and how large they are.
    pub fn pictured(&self) -> Option<(Rect, Rect)> {
        let (_, rect) = self.pictures.iter().find(|(of, _)| self.now.is_some_and(|now| of.contains(&now)))?;
        Some((rect.intersect(self.clip?), *rect))
    }

    /// How long a section of the form is, points.
    pub fn length_of(&self, section: Section) -> Option<f32> {
        let at = self.form.iter().position(|b| b.section == section)?;
        let end = self.form.get(at + 1).map_or(self.form_ends, |b| b.top);
        Some(end - self.form[at].top)
    }

    /// Asks for a section: the form goes there, and the cursor into its first field.
    pub(in crate::gui) fn jump(&mut self, section: Section) {
        (self.wanted, self.follow) = (Some(section), FRAMES);
        self.now = Some(section);
    }

    /// No section of this form was drawn yet.
    pub(in crate::gui) fn is_first(&self) -> bool {
        self.form.is_empty()
    }

    /// A form is drawn next.
    pub(in crate::gui) fn begin_form(&mut self) {
        self.form.clear();
    }

    /// A section of the form begins here; true when it was asked for.
    pub(in crate::gui) fn begins(&mut self, section: Section, top: f32) -> bool {
        self.form.push(Begins { section, top });
        self.wanted.take_if(|wanted| *wanted == section).is_some()
    }

    /// This section was asked for and is not drawn yet.
    pub(in crate::gui) fn is_wanted(&self, section: Section) -> bool {
        self.wanted == Some(section)
    }

    /// The cursor came into a field of the section drawn last.
    pub(in crate::gui) fn work_here(&mut self) {
        let here = self.form.last().map(|b| b.section);
        if here != self.now {
            self.follow = FRAMES;
        }
        self.now = here.or(self.now);
    }

    /// The form is drawn; `top` is the upper edge of what is seen of it, `bottom` its end. True when the rail shows other sections now.
    pub(in crate::gui) fn end_form(&mut self, [top, bottom]: [f32; 2], scrolled_by_hand: bool) -> bool {
        self.form_ends = bottom;
        let is_here = |now: &Section| self.form.iter().any(|b| b.section == *now);
        let offset = self.form.first().map_or(0.0, |b| b.top);
        let has_moved = (offset - self.scrolled_to).abs() > 0.5;
        self.scrolled_to = offset;
        let earlier = self.now;
        if self.now.as_ref().is_none_or(|now| !is_here(now)) {
            self.now = self.form.first().map(|b| b.section);
        } else if has_moved && scrolled_by_hand {
            let seen = self.form.iter().rfind(|b| b.top <= top + 60.0).or(self.form.first());
            self.now = seen.map(|b| b.section);
        }
        if earlier != self.now {
            self.follow = FRAMES;
        }
        self.wanted = None;
        let names = self.form.iter().map(|b| b.section).collect::<Vec<_>>();
        let is_other = names != self.names || earlier != self.now;
        self.names = names;
        is_other
    }

    /// Pictures are drawn next, in this part of the window.
    pub(in crate::gui) fn begin_pictures(&mut self, clip: Rect) {
        self.pictures.clear();
        self.clip = Some(clip);
    }

    /// Pictures of these sections begin at this height; true when they are those of the section that is worked in.
    pub(in crate::gui) fn pictures_begin(&mut self, of: &[Section], at: Rect) -> bool {
        self.end_pictures(at.top());
        self.pictures.push((of.to_vec(), at));
        self.now.is_some_and(|now| of.contains(&now))
    }

    /// The pictures drawn last end at this height.
    pub(in crate::gui) fn end_pictures(&mut self, bottom: f32) {
        if let Some((_, last)) = self.pictures.last_mut() {
            last.max.y = bottom;
        }
    }
}
