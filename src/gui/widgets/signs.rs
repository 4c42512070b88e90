//! Signs of where a value comes from and of how far a step is.

use eframe::egui::{Color32, Painter, Pos2, Rect, Sense, Stroke, StrokeKind, Ui, vec2};

use crate::base::language::tr;
use crate::base::units::Origin;
use crate::gui::widgets::theme;
use crate::job::Level;

/// The state of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Something is still to be done.
    Open,
    /// All is done, and nothing in it was assumed.
    Done,
    /// All is done, with defaults in it.
    OnDefaults,
    /// Something needs a check.
    InDoubt(Level),
}

impl Standing {
    /// Those that a legend explains: the others have the sign of their finding.
    pub const USUAL: [Standing; 4] =
        [Standing::Open, Standing::OnDefaults, Standing::Done, Standing::InDoubt(Level::Doubt)];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Standing::Open => tr("still open"),
            Standing::Done => tr("done"),
            Standing::OnDefaults => tr("uses defaults"),
            Standing::InDoubt(Level::Stop) => tr("stop"),
            Standing::InDoubt(Level::Error) => tr("has errors"),
            Standing::InDoubt(Level::Withheld) => tr("answer withheld"),
            Standing::InDoubt(_) => tr("needs checking"),
        }
    }
}

/// Open ring, full disc, half disc, or the sign of the finding.
pub fn step(painter: &Painter, standing: Standing, at: Pos2, color: Color32, dark: bool) {
    let stroke = Stroke::new(1.5, color);
    match standing {
        Standing::Open => {
            painter.circle_stroke(at, 5.0, stroke);
        }
        Standing::Done => {
            painter.circle_filled(at, 5.5, color);
        }
        Standing::OnDefaults => {
            painter.circle_stroke(at, 5.0, stroke);
            let left = Rect::from_min_max(at - vec2(6.0, 6.0), at + vec2(0.0, 6.0));
            painter.with_clip_rect(left).circle_filled(at, 5.0, color);
        }
        Standing::InDoubt(level) => theme::level_sign(painter, level, at, 6.0, dark),
    }
}

/// A gauge that fills with trust: empty, a quarter, half, three quarters, full. Steps have discs.
pub fn origin(painter: &Painter, origin: Option<Origin>, at: Pos2, color: Color32) {
    let share = match origin {
        None => 0.0,
        Some(Origin::Guessed) => 0.25,
        Some(Origin::Quoted) => 0.5,
        Some(Origin::Ledger) => 0.75,
        Some(Origin::Measured) => 1.0,
    };
    let gauge = Rect::from_center_size(at, vec2(14.0, 7.0));
    painter.rect_stroke(gauge, 3.0, Stroke::new(1.2, color), StrokeKind::Inside);
    let filled = gauge.with_max_x(gauge.left() + share * gauge.width());
    painter.with_clip_rect(filled).rect_filled(gauge, 3.0, color);
}

/// Room for a sign ahead of its words, and the sign in it.
pub fn beside(ui: &mut Ui, draw: impl FnOnce(&Painter, Pos2, Color32)) {
    let (rect, _) = ui.allocate_exact_size(vec2(16.0, 18.0), Sense::hover());
    draw(ui.painter(), rect.center(), ui.visuals().text_color());
}
