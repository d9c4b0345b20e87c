//! Writing a folder of files: all of them or none.

use super::Refusal;
use std::fs;
use std::io::Write;
use std::path::Path;

/// Refuses a folder that holds anything: what was drawn before could be cut with what is drawn now.
pub(super) fn free(path: &Path) -> Result<(), Refusal> {
    if !path.is_dir() {
        return match path.symlink_metadata() {
            Ok(_) => Err(Refusal(format!("{} is there already and is no folder", path.display()))),
            Err(_) => Ok(()),
        };
    }
    let mut inside =
        fs::read_dir(path).map_err(|error| Refusal(format!("{} cannot be read: {error}", path.display())))?;
    match inside.next() {
        None => Ok(()),
        Some(_) => Err(Refusal(format!(
            "{} is there already and is not empty; drawings of an older plan could be cut with the new ones: give the \
             name of a new folder; nothing was written",
            path.display()
        ))),
    }
}

/// Writes files beside the folder first, then puts them in its place.
pub(super) fn write(path: &Path, files: &[(String, String)]) -> Result<(), Refusal> {
    let refuse = |error: std::io::Error| Refusal(format!("{} cannot be written: {error}", path.display()));
    let parent = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let mut builder = tempfile::Builder::new();
    builder.prefix(".rodreach-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(fs::Permissions::from_mode(0o777));
    }
    let mut beside = builder.tempdir_in(parent).map_err(refuse)?;
    for (name, text) in files {
        let mut file = fs::File::create_new(beside.path().join(name)).map_err(refuse)?;
        file.write_all(text.as_bytes()).and_then(|()| file.sync_all()).map_err(refuse)?;
    }
    if path.is_dir() {
        // only an empty one goes away
        fs::remove_dir(path).map_err(refuse)?;
    }
    fs::rename(beside.path(), path).map_err(refuse)?;
    // it stands under its own name now
    beside.disable_cleanup(true);
    Ok(())
}
