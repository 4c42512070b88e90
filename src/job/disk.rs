//! Writing files so that nothing is lost: at every moment the old or the new file is whole.

use std::io::{Error, ErrorKind, Write as _};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use tempfile::{Builder, NamedTempFile};

use crate::language::tr;

/// How files are called that are being written; a dead program may leave one.
const UNDER_WAY: &str = ".springwright-";
/// What was under way so long ago is left over from a dead program.
const LEFT_OVER: Duration = Duration::from_secs(3600);

/// What became of the file that a save replaced.
#[derive(Debug)]
pub enum Backup {
    /// There was none, or it said the same.
    NotNeeded,
    /// It lies here now.
    Kept(PathBuf),
    /// It could not be kept; the save itself went well.
    Failed(Error),
}

/// Where the one backup of a job file lies: beside it, `NAME.ron~`.
pub fn backup_of(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push("~");
    name.into()
}

/// What to do when a file cannot be written.
pub fn advice(error: &Error) -> &'static str {
    match error.kind() {
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::FileTooLarge => {
            tr("The disk is full: make room on it and save again, or save on another disk with Save as")
        }
        ErrorKind::ReadOnlyFilesystem => tr("This disk can only be read: save on another disk with Save as"),
        ErrorKind::PermissionDenied => tr(
            "File or folder is write-protected: lift that, or save under another name or in another folder with Save as",
        ),
        ErrorKind::NotFound | ErrorKind::NotADirectory => {
            tr("The folder is not there, or no longer: plug the disk in again, or save in another folder with Save as")
        }
        _ => tr("Save again, or in another folder with Save as"),
    }
}

/// Writes beside the target, syncs, and renames.
///
/// # Errors
/// Whatever the disk says; the old file is then untouched.
pub fn write_text(path: &Path, text: &str) -> std::io::Result<()> {
    write_bytes(path, text.as_bytes())
}

/// As [`write_text`], for what is no text.
///
/// # Errors
/// As [`write_text`].
pub fn write_bytes(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    replace(&behind_links(path), bytes, false).map(|_| ())
}

/// As [`write_bytes`]; a file that is replaced by something else is kept as the one backup.
///
/// # Errors
/// As [`write_text`].
pub fn write_with_backup(path: &Path, bytes: &[u8]) -> std::io::Result<Backup> {
    replace(&behind_links(path), bytes, true)
}

fn replace(path: &Path, bytes: &[u8], backup: bool) -> std::io::Result<Backup> {
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    // A rename would replace a protected file all the same; that it is protected is somebody's wish.
    if std::fs::metadata(path).is_ok_and(|m| m.permissions().readonly()) {
        return Err(Error::new(ErrorKind::PermissionDenied, tr("the file is write-protected")));
    }
    let mut beside = new_file(path, folder)?;
    beside.write_all(bytes)?;
    beside.as_file().sync_all()?;
    let kept = if backup { keep_backup(path, folder, bytes) } else { Backup::NotNeeded };
    beside.persist(path).map_err(|e| e.error)?;
    // The new file is in its place; not every file system syncs a folder.
    #[cfg(unix)]
    let _ = std::fs::File::open(folder).and_then(|f| f.sync_all());
    sweep(folder);
    Ok(kept)
}

/// The file itself when the path is a link to it: the link stays a link.
fn behind_links(path: &Path) -> PathBuf {
    let is_link = std::fs::symlink_metadata(path).is_ok_and(|m| m.is_symlink());
    if is_link { std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned()) } else { path.to_owned() }
}

/// Gives the old file its backup name, without a moment in which it has none.
fn keep_backup(path: &Path, folder: &Path, new: &[u8]) -> Backup {
    match std::fs::read(path) {
        Ok(old) if old == new => return Backup::NotNeeded,
        Err(error) if error.kind() == ErrorKind::NotFound => return Backup::NotNeeded,
        Err(error) => return Backup::Failed(error),
        Ok(_) => {}
    }
    let backup = backup_of(path);
    let linked = Builder::new()
        .prefix(UNDER_WAY)
        .make_in(folder, |name| std::fs::hard_link(path, name))
        .and_then(|link| link.into_temp_path().persist(&backup).map_err(|e| e.error));
    // Not every disk has links.
    let copied = || std::fs::read(path).and_then(|old| write_bytes(&backup, &old));
    match linked.or_else(|_| copied()) {
        Ok(()) => Backup::Kept(backup),
        Err(error) => Backup::Failed(error),
    }
}

/// A file beside the one at `path`, with the permissions that this one has; where there is none yet, with those that
/// the system gives any new file of the user's.
fn new_file(path: &Path, folder: &Path) -> std::io::Result<NamedTempFile> {
    let mut builder = Builder::new();
    builder.prefix(UNDER_WAY);
    let there = std::fs::metadata(path).ok().map(|about| about.permissions());
    #[cfg(unix)]
    if there.is_none() {
        use std::os::unix::fs::PermissionsExt as _;
        // For everyone, less what the umask takes.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let file = builder.tempfile_in(folder)?;
    #[cfg(unix)]
    if let Some(permissions) = there {
        // A disk that knows no permissions is none the worse.
        let _ = file.as_file().set_permissions(permissions);
    }
    #[cfg(not(unix))]
    drop(there);
    Ok(file)
}

/// Takes away what a dead program left half written.
fn sweep(folder: &Path) {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    for entry in entries.filter(|e| e.file_name().to_string_lossy().starts_with(UNDER_WAY)) {
        let written = entry.metadata().and_then(|m| m.modified());
        let is_old = |at: SystemTime| SystemTime::now().duration_since(at).is_ok_and(|age| age > LEFT_OVER);
        if written.is_ok_and(is_old) {
            // Another window may have been faster.
            let _ = std::fs::remove_file(entry.path());
        }
    }
}
