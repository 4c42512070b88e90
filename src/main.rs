//! Opens the window; without a display, prints the answer and writes the sheet.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::Parser;
use springwright::base::language::{Language, Voice, path_text, speak, tr};
use springwright::cli;
use springwright::cli::output;
use springwright::cli::window::WindowArgs;
use springwright::job::{Job, file};
use springwright::report::print;
use springwright::report::print::Over;
use springwright::report::sheets::sheet;
use springwright::report::sheets::{self, Kind, Printed};
use springwright::report::write::page::{Fonts, Paper};
use springwright::report::write::text::{self, Markup};
use springwright::say;
use springwright::shop::presets;
use springwright::solve;

const NAME: &str = "springwright";
/// Names that are tried for a sheet next to its job.
const MOST_NAMES: usize = 100;

fn main() -> ExitCode {
    let args = match WindowArgs::try_parse() {
        Ok(args) => args,
        Err(wrong) => return ExitCode::from(output::usage(NAME, &wrong)),
    };
    let language = args.language.unwrap_or_else(Language::of_system);
    let _voice = speak(Voice { language, mark: language.mark() });
    let why = match open_window(&args) {
        Ok(()) => return ExitCode::SUCCESS,
        Err(why) => why,
    };
    ExitCode::from(without_window(args.job.as_deref(), language, &why).unwrap_or_else(|error| {
        output::complain(NAME, &format!("{error:#}"));
        cli::exit::FILE
    }))
}

/// Opens the window, or says why not.
#[cfg(feature = "gui")]
fn open_window(args: &WindowArgs) -> Result<(), String> {
    if args.no_window {
        return Err(tr("No window was requested.").into());
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
        customer: args.customer,
        size: args.size,
        dark: args.theme.as_ref().map(|t| t == "dark"),
        zoom: args.zoom,
        language: args.language,
        say_frames: args.say_frames,
    })
    .map_err(|error| say!("The window could not be opened ({error}), so the answer follows as text.", error))
}

#[cfg(not(feature = "gui"))]
fn open_window(_: &WindowArgs) -> Result<(), String> {
    Err(tr("This program was built without window support, so the answer follows as text.").into())
}

/// The same job in text, and its sheet next to it; gives back the exit code.
fn without_window(job: Option<&Path>, language: Language, why: &str) -> anyhow::Result<u8> {
    let (job, beside): (Job, PathBuf) = match (job.and_then(presets::named), job) {
        (None, Some(path)) => (
            file::read(path)
                .map_err(|e| anyhow::anyhow!("{}", say!("{e}\n  file: {path}", e, path = path_text(path))))?,
            path.to_owned(),
        ),
        (Some(preset), Some(name)) => (preset.job_in(language), name.to_owned()),
        (_, None) => (presets::PRESETS[0].job_in(language), PathBuf::from("springwright-sheet")),
    };
    let _voice = speak(Voice { language, mark: job.decimal });
    let answer = solve::solve(&job);
    let text = format!("{why}\n\n{}", text::write(&sheet::build(&job, &answer), Markup::Plain));
    let code = output::print(NAME, &text, cli::code(&answer));
    if !answer.is_known() {
        output::complain(NAME, &cli::no_answer());
    }
    let out = sheet_beside(&beside);
    let date = print::today();
    let printed = Printed { date: Some(&date), ..Printed::default() };
    let (report, fit) = print::sheet(Kind::Full, &job, &answer, printed, sheets::words_of(&job));
    let printing = print::printing(&job, Paper::A4, fit, None, &path_text(&out), &date);
    print::write(&report, &printing, &mut Fonts::with_system(), &out, Over::Sheets)?;
    let shown = std::path::absolute(&out).unwrap_or(out);
    Ok(output::print(NAME, &format!("\n{}\n", say!("Sheet saved: {path}", path = path_text(&shown))), code))
}

/// Default path of a job's sheet: next to it, under a name that no file has but a sheet.
fn sheet_beside(job: &Path) -> PathBuf {
    let plain = job.with_extension("md");
    let stem = job.file_stem().unwrap_or_default().to_string_lossy();
    let numbered = (1..MOST_NAMES).map(|n| job.with_file_name(format!("{stem}-sheet-{n}.md")));
    let mut names = std::iter::once(plain.clone()).chain(numbered);
    names.find(|name| print::is_free(name)).unwrap_or(plain)
}
