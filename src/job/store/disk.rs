//! Writing files so that nothing is lost: at every moment the old or the new file is whole.

use std::fs::TryLockError;
use std::io::{Error, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use tempfile::{Builder, NamedTempFile};

use crate::base::language::{Word, path_text, tr};
use crate::say;

/// How a file begins and ends that is being written, with [`RANDOM`] letters and digits between; a dead program may
/// leave one.
const UNDER_WAY: [&str; 2] = [".springwright-", ".part"];
const RANDOM: usize = 12;
/// What was under way so long ago is left over from a dead program.
const LEFT_OVER: Duration = Duration::from_secs(3600);
/// A link that leads to a link, and so on: no further than the system goes.
const MOST_LINKS: usize = 40;
/// Another program may save in the same folder: it is waited for, this number of times and for this long.
const TURNS: (u32, Duration) = (100, Duration::from_millis(10));

/// What became of the file that a save replaced.
#[derive(Debug)]
pub enum Backup {
    /// There was none, or it had the same content.
    NotNeeded,
    /// It lies here now.
    Kept(PathBuf),
    /// It could not be kept; the save itself went well.
    Failed(Error),
}

/// Where the one backup of a job file is: in the same folder, `NAME.ron~`.
pub fn backup_of(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push("~");
    name.into()
}

/// What to do when a file cannot be written.
pub fn advice(error: &Error) -> Word {
    match error.kind() {
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::FileTooLarge => {
            Word("The disk is full: free some space and save again, or save to another disk with Save as")
        }
        ErrorKind::ReadOnlyFilesystem => Word("This disk is read-only: save to another disk with Save as"),
        ErrorKind::PermissionDenied => Word(
            "The file or folder is write-protected: remove the protection, or save under another name or in another folder with Save as",
        ),
        ErrorKind::NotFound | ErrorKind::NotADirectory => {
            Word("The folder cannot be found: reconnect the disk, or save in another folder with Save as")
        }
        _ => Word("Save again, or save in another folder with Save as"),
    }
}

/// Writes next to the target, syncs, and renames. A link stays a link, also one whose file is not there yet; owner and
/// permissions stay. A device or a pipe is written to as it is.
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
    match place(path)? {
        Place::File(path) => {
            let _turn = turn(folder_of(&path));
            replace(&path, bytes, false).map(|_| ())
        }
        Place::Stream(at) => write_through(&at, bytes),
    }
}

/// As [`write_bytes`]; a file that is replaced by something else is kept as the one backup. A device or a pipe is
/// refused: what goes there cannot be read again.
///
/// # Errors
/// As [`write_text`].
pub fn write_with_backup(path: &Path, bytes: &[u8]) -> std::io::Result<Backup> {
    let Place::File(path) = place(path)? else { return Err(no_file()) };
    let _turn = turn(folder_of(&path));
    replace(&path, bytes, true)
}

/// The bytes of a file; a device or a pipe, which may never end or never begin, is refused.
///
/// # Errors
/// Whatever the disk says.
pub fn read_bytes(path: &Path) -> std::io::Result<Vec<u8>> {
    if is_stream(path) { Err(no_file()) } else { std::fs::read(path) }
}

/// A device, a pipe or another program's open file: written through, never replaced, and perhaps never ready.
pub fn is_stream(path: &Path) -> bool {
    matches!(place(path), Ok(Place::Stream(_)))
}

fn no_file() -> Error {
    Error::new(ErrorKind::InvalidInput, tr("this is a device or a pipe, not a file: choose a file"))
}

/// Where the bytes for a path go.
enum Place {
    /// Into this file, there or not, behind all links.
    File(PathBuf),
    /// Into something that is no file, behind all links.
    Stream(PathBuf),
}

fn place(path: &Path) -> std::io::Result<Place> {
    let mut at = path.to_owned();
    for _ in 0..MOST_LINKS {
        if is_open_file(&at) {
            return Ok(Place::Stream(at));
        }
        let about = match std::fs::symlink_metadata(&at) {
            Ok(about) => about,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Place::File(at)),
            Err(error) => return Err(error),
        };
        if !about.is_symlink() {
            let is_file = about.is_file() || about.is_dir();
            return Ok(if is_file { Place::File(at) } else { Place::Stream(at) });
        }
        at = folder_of(&at).join(std::fs::read_link(&at)?);
    }
    Err(Error::other(tr("this link points back to itself")))
}

/// A file that a program has open, by its number: `/dev/stdout` leads there.
fn is_open_file(path: &Path) -> bool {
    let is_of_system = path.starts_with("/proc") || path.starts_with("/dev");
    is_of_system && path.parent().is_some_and(|folder| folder.ends_with("fd"))
}

/// The folder of a file; `.` for a bare name.
fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

/// What others sent there before stays: a file behind it grows. The program's own output may be what cannot be opened
/// again, such as a socket.
fn write_through(stream: &Path, bytes: &[u8]) -> std::io::Result<()> {
    let is_number =
        |number| ["/proc/self/fd", "/dev/fd"].iter().any(|folder| *stream == Path::new(folder).join(number));
    let mut stream: Box<dyn Write> = if is_number("1") {
        Box::new(std::io::stdout())
    } else if is_number("2") {
        Box::new(std::io::stderr())
    } else {
        Box::new(std::fs::File::options().append(true).open(stream)?)
    };
    stream.write_all(bytes)?;
    stream.flush()
}

/// One program after the other saves in a folder, so that what each replaces is in a backup. `None` where the system
/// does not lock folders, or someone else holds it for good.
fn turn(folder: &Path) -> Option<std::fs::File> {
    let folder = std::fs::File::open(folder).ok()?;
    for _ in 0..TURNS.0 {
        match folder.try_lock() {
            Ok(()) => return Some(folder),
            Err(TryLockError::WouldBlock) => std::thread::sleep(TURNS.1),
            Err(TryLockError::Error(_)) => return None,
        }
    }
    None
}

/// The caller has its turn in the folder.
fn replace(path: &Path, bytes: &[u8], backup: bool) -> std::io::Result<Backup> {
    let folder = folder_of(path);
    let old = std::fs::metadata(path).ok();
    // A rename would replace a protected file all the same; that it is protected is somebody's wish.
    if old.as_ref().is_some_and(|m| m.permissions().readonly()) {
        return Err(Error::new(ErrorKind::PermissionDenied, tr("the file is write-protected")));
    }
    let mut beside = new_file(folder, old.is_some())?;
    // Held until it has its name: nobody sweeps it. A disk without locks has its age.
    let _ = beside.as_file().try_lock();
    beside.write_all(bytes)?;
    let has_owner = old.as_ref().is_none_or(|old| is_made_like(beside.as_file(), old));
    beside.as_file().sync_all()?;
    let kept = if backup { keep_backup(path, folder, bytes, has_owner) } else { Backup::NotNeeded };
    if has_owner {
        beside.persist(path).map_err(|e| e.error)?;
    } else {
        write_over(path, bytes, beside)?;
    }
    // The new file is in its place; not every file system syncs a folder.
    #[cfg(unix)]
    let _ = std::fs::File::open(folder).and_then(|f| f.sync_all());
    sweep(folder);
    Ok(kept)
}

/// Someone else's file that may be written: it stays theirs, so it is written where it is. Until it is whole, the new
/// text is whole next to it.
fn write_over(path: &Path, bytes: &[u8], beside: NamedTempFile) -> std::io::Result<()> {
    let open = || std::fs::File::options().write(true).truncate(true).open(path);
    let write = |mut file: std::fs::File| file.write_all(bytes).and_then(|()| file.sync_all());
    open().and_then(|file| {
        write(file).map_err(|error| match beside.keep() {
            Ok((_, whole)) => Error::new(
                error.kind(),
                say!("{error}; the complete new file is kept as {path}", error, path = path_text(&whole)),
            ),
            Err(_) => error,
        })
    })
}

/// Gives the old file its backup name, without a moment in which it has none.
fn keep_backup(path: &Path, folder: &Path, new: &[u8], may_link: bool) -> Backup {
    match std::fs::read(path) {
        Ok(old) if old == new => return Backup::NotNeeded,
        Err(error) if error.kind() == ErrorKind::NotFound => return Backup::NotNeeded,
        Err(error) => return Backup::Failed(error),
        Ok(_) => {}
    }
    let backup = backup_of(path);
    let link = || {
        let link = named().make_in(folder, |name| std::fs::hard_link(path, name))?;
        link.into_temp_path().persist(&backup).map_err(|e| e.error)
    };
    // Not every disk has links.
    let copy = || std::fs::read(path).and_then(|old| replace(&backup, &old, false)).map(|_| ());
    let kept = if may_link { link().or_else(|_| copy()) } else { copy() };
    match kept {
        Ok(()) => Backup::Kept(backup),
        Err(error) => Backup::Failed(error),
    }
}

/// Files that are being written have such a name.
fn named() -> Builder<'static, 'static> {
    let mut builder = Builder::new();
    builder.prefix(UNDER_WAY[0]).suffix(UNDER_WAY[1]).rand_bytes(RANDOM);
    builder
}

/// A file in this folder; one that replaces none has the permissions that the system gives any new file of the user's.
fn new_file(folder: &Path, replaces: bool) -> std::io::Result<NamedTempFile> {
    let mut builder = named();
    #[cfg(unix)]
    if !replaces {
        use std::os::unix::fs::PermissionsExt as _;
        // For everyone, less what the umask takes.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    #[cfg(not(unix))]
    let _ = replaces;
    builder.tempfile_in(folder)
}

/// Gives a new file owner and permissions of the old one; false when it cannot have that owner.
#[cfg(unix)]
fn is_made_like(new: &std::fs::File, old: &std::fs::Metadata) -> bool {
    use std::os::unix::fs::{MetadataExt as _, fchown};
    let is_same = new.metadata().is_ok_and(|new| (new.uid(), new.gid()) == (old.uid(), old.gid()));
    if !is_same && fchown(new, Some(old.uid()), Some(old.gid())).is_err() {
        return false;
    }
    // A disk that knows no permissions is none the worse.
    let _ = new.set_permissions(old.permissions());
    true
}

#[cfg(not(unix))]
fn is_made_like(_: &std::fs::File, _: &std::fs::Metadata) -> bool {
    true
}

/// Removes what a dead program left half written: files that only this program calls so, long ago, and that no living
/// one holds.
fn sweep(folder: &Path) {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    for entry in entries.filter(|e| e.file_name().to_str().is_some_and(is_under_way)) {
        let about = entry.metadata().ok().filter(std::fs::Metadata::is_file);
        let written = about.and_then(|m| m.modified().ok());
        let is_old = |at: SystemTime| SystemTime::now().duration_since(at).is_ok_and(|age| age > LEFT_OVER);
        let is_held = || {
            let lock = std::fs::File::open(entry.path()).map(|f| f.try_lock());
            matches!(lock, Ok(Err(TryLockError::WouldBlock)))
        };
        if written.is_some_and(is_old) && !is_held() {
            // Another window may have been faster.
            let _ = std::fs::remove_file(entry.path());
        }
    }
}

fn is_under_way(name: &str) -> bool {
    let random = name.strip_prefix(UNDER_WAY[0]).and_then(|rest| rest.strip_suffix(UNDER_WAY[1]));
    random.is_some_and(|r| r.len() == RANDOM && r.bytes().all(|b| b.is_ascii_alphanumeric()))
}
