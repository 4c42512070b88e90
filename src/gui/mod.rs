//! The window. It draws, collects commands and runs them after drawing.
//!
//! It asks [`crate::solve`] through a memo and shows what [`crate::report`] says;
//! it calls no trade function. Files are read and written by [`crate::job::file`], [`crate::shop::jobs_folder`], [`crate::shop`] and
//! [`crate::report::print`]; long ones in the background. Only [`app::document`] itself looks at one: did others change it?

pub mod app;
pub mod background;
pub mod drawings;
pub mod help;
pub mod screens;
pub mod state;
pub mod widgets;

use std::io::Write as _;
use std::path::PathBuf;
use std::sync::Arc;

pub use app::App;
pub use state::step::Step;
pub use state::view::{PasteInto, Pasting, View};

/// How the window is opened.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// Job to open.
    pub job: Option<PathBuf>,
    /// Step to show first.
    pub step: Option<Step>,
    /// Open with the customer's view.
    pub customer: bool,
    /// Axle to show first.
    pub rear: bool,
    /// Size of the window in points.
    pub size: Option<[f32; 2]>,
    /// Light or dark instead of the system's.
    pub dark: Option<bool>,
    /// Zoom factor.
    pub zoom: Option<f32>,
    /// Language instead of the remembered one or the system's.
    pub language: Option<Language>,
    /// Print a line when a frame begins.
    pub say_frames: bool,
}

/// How the window is requested from the system.
pub fn native(options: &Options) -> eframe::NativeOptions {
    let mut viewport = egui::ViewportBuilder::default()
        .with_app_id("springwright")
        .with_title("springwright")
        .with_min_inner_size([640.0, 480.0])
        .with_inner_size(options.size.unwrap_or([1280.0, 800.0]));
    // Without its picture the window works as well.
    if let Ok(icon) = eframe::icon_data::from_png_bytes(include_bytes!("../../assets/desktop/springwright.png")) {
        viewport = viewport.with_icon(icon);
    }
    let mut native = eframe::NativeOptions { viewport, persist_window: options.size.is_none(), ..Default::default() };
    if let Some(size) = options.size {
        // Asked last: what is remembered of the window comes before, and gives way.
        native.window_builder = Some(Box::new(move |window| placed(window, size)));
    }
    native
}

/// Opens the window and returns when it is closed.
///
/// # Errors
/// Whatever keeps the system from opening a window; then nothing was shown.
pub fn run(options: Options) -> Result<(), eframe::Error> {
    let native = native(&options);
    let open = move |cc: &eframe::CreationContext<'_>| {
        if options.say_frames {
            say_frames(&cc.egui_ctx);
        }
        Ok(Box::new(App::new(cc, &options)) as Box<dyn eframe::App>)
    };
    eframe::run_native("springwright", native, Box::new(open))
}

/// A window of this size in the corner of the screen, whatever was remembered of it.
fn placed(window: egui::ViewportBuilder, size: [f32; 2]) -> egui::ViewportBuilder {
    window.with_inner_size(size).with_position([0.0, 0.0]).with_maximized(false).with_fullscreen(false)
}

/// Prints a line whenever a frame begins: its number, and the size of the window in points. A second one is drawn in any case: when it begins, the first is on screen.
pub fn say_frames(ctx: &egui::Context) {
    let say = |ui: &mut egui::Ui| {
        let frame = ui.ctx().cumulative_frame_nr();
        let size = ui.ctx().content_rect().size();
        // Whoever asked may have stopped listening.
        let _ = writeln!(std::io::stdout(), "frame {frame} {}x{}", size.x, size.y);
        if frame == 0 {
            ui.ctx().request_repaint();
        }
    };
    ctx.on_begin_pass("say frames", Arc::new(say));
}

use eframe::egui;

use crate::base::language::Language;
