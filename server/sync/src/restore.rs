//! Puts a backup in the place of what a server had.

use std::fs::{self, File};
use std::path::{Path, PathBuf};

use crate::store::{COMPANIONS, Found, Sqlite, Trouble, alone, beside, look, take_from_others};

/// Puts a copy of the backup in the place of `file`, once it is found sound.
/// What is there already is moved aside; the name it then has is returned.
/// Refused while a server has the file. Where it fails everything is as it
/// was, and nothing is left beside it.
pub async fn restore(backup: &Path, file: &Path) -> Result<Option<PathBuf>, Trouble> {
    if look(backup).await? == Found::Nothing {
        return Err(Trouble::NotThere(backup.to_owned()));
    }
    let _alone = alone(file).await?;
    let coming = beside(file, ".restoring");
    // Left behind by a try that was broken off, if there was one.
    discard(&coming);
    let brought = Sqlite::bring(backup, &coming).await;
    let done = brought.and_then(|()| {
        let exchanged = File::open(&coming)
            .and_then(|it| it.sync_all())
            .map_err(Trouble::from);
        exchanged
            .and_then(|()| exchange(&coming, file))
            .map_err(|why| why.of(file))
    });
    match &done {
        Err(_) => discard(&coming),
        Ok(Some(aside)) => take_from_others(aside),
        Ok(None) => {}
    }
    done
}

fn discard(file: &Path) {
    for companion in COMPANIONS {
        // Most often there is none.
        let _ = fs::remove_file(beside(file, companion));
    }
}

/// Moves a file to the place of another, which is moved aside with its
/// companions; the name it then has. What was moved goes back where that
/// fails.
fn exchange(coming: &Path, file: &Path) -> Result<Option<PathBuf>, Trouble> {
    // What the database has not taken in yet goes first: without it the file
    // would be less than it was.
    let there = COMPANIONS.into_iter().rev();
    let there: Vec<_> = there.filter(|it| beside(file, it).exists()).collect();
    let mut names = (1_u32..).map(|number| beside(file, &format!(".before-restore-{number}")));
    let free = |name: &PathBuf| COMPANIONS.iter().all(|it| !beside(name, it).exists());
    let Some(aside) = names.find(free) else {
        return Err(Trouble::Other(String::from("no name is free")));
    };
    let mut moved = Vec::new();
    let mut exchanging = || {
        for companion in &there {
            fs::rename(beside(file, companion), beside(&aside, companion))?;
            moved.push(*companion);
        }
        fs::rename(coming, file)
    };
    if let Err(why) = exchanging() {
        for companion in moved.into_iter().rev() {
            // It came from there.
            let _ = fs::rename(beside(&aside, companion), beside(file, companion));
        }
        return Err(why.into());
    }
    Ok((!there.is_empty()).then_some(aside))
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::path::PathBuf;

    use super::exchange;

    /// A folder that goes when it is dropped.
    struct Folder(PathBuf);

    impl Drop for Folder {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    #[test]
    fn what_was_moved_goes_back_where_nothing_comes() {
        let name = format!("foldwright-exchange-{}", std::process::id());
        let folder = Folder(std::env::temp_dir().join(name));
        fs::create_dir_all(&folder.0).unwrap();
        let file = folder.0.join("workshops.db");
        let beside = [
            ("workshops.db", "the workshops"),
            ("workshops.db-wal", "not taken in yet"),
        ];
        for (name, text) in beside {
            fs::write(folder.0.join(name), text).unwrap();
        }
        exchange(&folder.0.join("missing"), &file).unwrap_err();
        let mut names: Vec<_> = fs::read_dir(&folder.0)
            .unwrap()
            .map(|it| it.unwrap().file_name())
            .collect();
        names.sort();
        assert_eq!(names, beside.map(|(name, _)| name));
        for (name, text) in beside {
            assert_eq!(fs::read_to_string(folder.0.join(name)).unwrap(), text);
        }
    }
}
