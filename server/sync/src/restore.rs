//! Puts a backup in the place of what a server had.

use std::fs::{self, File};
use std::path::{Path, PathBuf};

use crate::store::{Sqlite, Trouble, alone, beside};

/// What SQLite keeps beside a file while it is open, or after a crash.
const COMPANIONS: [&str; 3] = ["", "-wal", "-shm"];

/// Puts a copy of the backup in the place of `file`, once it is found sound.
/// What is there already is moved aside; the name it then has is returned.
/// Refused while a server has the file.
pub async fn restore(backup: &Path, file: &Path) -> Result<Option<PathBuf>, Trouble> {
    let _alone = alone(file).await?;
    let coming = beside(file, ".restoring");
    for companion in COMPANIONS {
        // Left behind by a try that was broken off, if there was one.
        let _ = fs::remove_file(beside(&coming, companion));
    }
    fs::copy(backup, &coming)?;
    let readied = Sqlite::ready(&coming).await;
    if readied.is_err() {
        let _ = fs::remove_file(&coming);
    }
    readied?;
    File::open(&coming)?.sync_all()?;
    let aside = move_aside(file)?;
    fs::rename(&coming, file)?;
    Ok(aside)
}

/// Moves a file and its companions to the first name that is free.
fn move_aside(file: &Path) -> Result<Option<PathBuf>, Trouble> {
    if !file.exists() {
        return Ok(None);
    }
    let mut names = (1_u32..).map(|number| beside(file, &format!(".before-restore-{number}")));
    let Some(aside) = names.find(|name| !name.exists()) else {
        return Err(Trouble::Other(String::from("no name is free")));
    };
    // What the database has not taken in yet goes first: without it the file
    // would be less than it was.
    for companion in COMPANIONS.into_iter().rev() {
        let from = beside(file, companion);
        if from.exists() {
            fs::rename(from, beside(&aside, companion))?;
        }
    }
    Ok(Some(aside))
}
