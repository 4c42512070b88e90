//! What makes the programs at home on a desktop: menu entry, file type, icon, manual pages, completions.
//!
//! Manual pages and completions are made from the definition of the command line, so they cannot say anything else.

use std::io::{Error, ErrorKind};
use std::path::{Path, PathBuf};

use clap::{Command, CommandFactory as _};
use clap_complete::Shell;

use super::{Args, window::WindowArgs};
use crate::base::language::path_text;
use crate::job::file;
use crate::say;

const FIXED: [(&str, &[u8]); 4] = [
    ("applications/springwright.desktop", include_bytes!("../../assets/desktop/springwright.desktop")),
    ("mime/packages/springwright.xml", include_bytes!("../../assets/desktop/springwright.xml")),
    ("icons/hicolor/scalable/apps/springwright.svg", include_bytes!("../../assets/desktop/springwright.svg")),
    ("icons/hicolor/128x128/apps/springwright.png", include_bytes!("../../assets/desktop/springwright.png")),
];
const SHELLS: [(Shell, &str); 3] = [
    (Shell::Bash, "bash-completion/completions"),
    (Shell::Zsh, "zsh/site-functions"),
    (Shell::Fish, "fish/vendor_completions.d"),
];

/// Every such file by its place below a share folder.
///
/// # Errors
/// When a manual page cannot be written; not known to happen.
pub fn files() -> std::io::Result<Vec<(PathBuf, Vec<u8>)>> {
    let mut files: Vec<_> = FIXED.iter().map(|(path, bytes)| (PathBuf::from(path), bytes.to_vec())).collect();
    for program in [WindowArgs::command(), Args::command()] {
        let mut program = program.disable_help_subcommand(true);
        program.build();
        let name = program.get_name().to_owned();
        for (shell, folder) in SHELLS {
            let mut script = Vec::new();
            clap_complete::generate(shell, &mut program, &name, &mut script);
            let file = match shell {
                Shell::Zsh => format!("_{name}"),
                Shell::Fish => format!("{name}.fish"),
                _ => name.clone(),
            };
            files.push((Path::new(folder).join(file), script));
        }
        pages(&program, &mut files)?;
    }
    Ok(files)
}

/// The manual page of a program, and one of each of its commands.
fn pages(command: &Command, files: &mut Vec<(PathBuf, Vec<u8>)>) -> std::io::Result<()> {
    let mut page = Vec::new();
    clap_mangen::Man::new(command.clone()).render(&mut page)?;
    let name = command.get_display_name().unwrap_or(command.get_name());
    files.push((PathBuf::from(format!("man/man1/{name}.1")), page));
    let inner = command.get_subcommands().filter(|c| !c.is_hide_set() && c.get_name() != "help");
    inner.into_iter().try_for_each(|inner| pages(inner, files))
}

/// Writes them all below a share folder (`/usr/share`, `~/.local/share`); gives back which. A file that is there and
/// says something else is someone's: it is replaced by force only, and without, nothing is written.
///
/// # Errors
/// Whatever the disk says, or what is in the way.
pub fn write(share: &Path, force: bool) -> std::io::Result<Vec<PathBuf>> {
    let files: Vec<(PathBuf, Vec<u8>)> =
        files()?.into_iter().map(|(place, bytes)| (share.join(place), bytes)).collect();
    let is_other = |path: &Path, bytes: &[u8]| path.exists() && file::read_bytes(path).ok().as_deref() != Some(bytes);
    let others: Vec<String> =
        files.iter().filter(|(path, bytes)| is_other(path, bytes)).map(|(path, _)| path_text(path)).collect();
    if !force && !others.is_empty() {
        let files = others.join("\n  ");
        let text = say!(
            "these files already exist with different contents, so nothing was written. Move them, or replace them with --force\n  {files}",
            files
        );
        return Err(Error::new(ErrorKind::AlreadyExists, text));
    }
    let mut written = Vec::new();
    for (path, bytes) in files {
        std::fs::create_dir_all(path.parent().unwrap_or(share))?;
        file::write_bytes(&path, &bytes)?;
        written.push(path);
    }
    Ok(written)
}
