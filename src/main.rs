//! Opens the window; without a display, prints the answer and writes the sheet.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::Parser;
use springwright::cli::window::WindowArgs;
use springwright::job::{Job, file};
use springwright::language::{Language, Voice, speak, tr};
use springwright::report::page::{Fonts, Paper};
use springwright::report::sheets::{self, Kind, Printed};
use springwright::report::text::{self, Markup};
use springwright::report::{print, sheet};
use springwright::{cli, presets, say, solve};

fn main() -> ExitCode {
    let args = WindowArgs::parse();
    let language = args.language.unwrap_or_else(Language::of_system);
    let _voice = speak(Voice { language, mark: language.mark() });
    let why = match open_window(&args) {
        Ok(()) => return ExitCode::SUCCESS,
        Err(why) => why,
    };
    match without_window(args.job.as_deref(), language, &why) {
        Ok(code) => ExitCode::from(code),
        Err(error) => {
            eprintln!("springwright: {error:#}");
            ExitCode::from(cli::exit::FILE)
        }
    }
}

/// Opens the window, or says why not.
#[cfg(feature = "gui")]
fn open_window(args: &WindowArgs) -> Result<(), String> {
    if args.no_window {
        return Err(tr("No window was asked for.").into());
    }
    if cfg!(all(unix, not(target_os = "macos")))
        && ["DISPLAY", "WAYLAND_DISPLAY"].iter().all(|name| std::env::var_os(name).is_none_or(|v| v.is_empty()))
    {
        return Err(tr("There is no display, so the answer follows as text.").into());
    }
    use springwright::gui::{Options, Step, run};
    let step = args.step.as_ref().and_then(|name| Step::ALL.into_iter().find(|s| s.key().eq_ignore_ascii_case(name)));
    run(Options {
        job: args.job.clone(),
        step,
        rear: args.rear,
        size: args.size,
        dark: args.theme.as_ref().map(|t| t == "dark"),
        zoom: args.zoom,
        language: args.language,
        say_frames: args.say_frames,
    })
    .map_err(|error| say!("No window could be opened ({error}), so the answer follows as text.", error))
}

#[cfg(not(feature = "gui"))]
fn open_window(_: &WindowArgs) -> Result<(), String> {
    Err(tr("This program was built without its window, so the answer follows as text.").into())
}

/// The same job in text, and its sheet beside it.
fn without_window(job: Option<&Path>, language: Language, why: &str) -> anyhow::Result<u8> {
    let (job, out): (Job, PathBuf) = match job {
        Some(path) => (
            file::read(path).map_err(|e| anyhow::anyhow!("{e}\n  file: {}", path.display()))?,
            path.with_extension("md"),
        ),
        None => (presets::PRESETS[0].job_in(language), PathBuf::from("springwright-sheet.md")),
    };
    let _voice = speak(Voice { language, mark: job.decimal });
    let answer = solve::solve(&job);
    print!("{why}\n\n{}", text::write(&sheet::build(&job, &answer), Markup::Plain));
    let date = print::today();
    let printed = Printed { date: Some(&date), ..Printed::default() };
    let (report, fit) = print::sheet(Kind::Full, &job, &answer, printed, sheets::words_of(&job));
    let printing = print::printing(&job, Paper::A4, fit, None, &out.display().to_string(), &date);
    print::write(&report, &printing, &mut Fonts::with_system(), &out)?;
    let shown = std::path::absolute(&out).unwrap_or(out);
    println!("\n{}", say!("Sheet written: {path}", path = shown.display()));
    Ok(cli::code(&answer))
}
