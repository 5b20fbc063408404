//! Where the server keeps workshops, and what can be done with them from the
//! command line.

use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use foldwright_sync::store::Trouble::{Foreign, NotThere, Other, There};
use foldwright_sync::{Hub, Place};

use crate::run::Trouble;

/// The file where none is named.
const FILE: &str = "foldwright.db";

/// Opens what is named, or the file beside the program. Where nothing was
/// named and no file can be kept there, the server does without: it still
/// serves the app.
pub(crate) async fn open(named: Option<&str>) -> Result<Option<Arc<Hub>>, Trouble> {
    let opened = async { Hub::start(place(named).open().await?).await }.await;
    match (opened, named) {
        (Ok(hub), _) => Ok(Some(hub)),
        (Err(why), Some(_)) => Err(Trouble::Workshops(why)),
        (Err(why), None) => {
            // Nobody may be reading.
            let _ = writeln!(
                io::stderr(),
                "Devices cannot share recipes over this server: {why} Choose a place for them \
                 with --data."
            );
            Ok(None)
        }
    }
}

/// Copies everything into a new file.
pub(crate) async fn back_up(named: Option<&str>, to: &Path) -> Result<(), Trouble> {
    let place = place(named);
    let copied = async {
        // A mistyped name would otherwise make a new file and copy that.
        if let (Place::File(file), false) = (&place, place.is_there().await?) {
            return Err(NotThere(file.clone()));
        }
        let store = place.visit().await?;
        let copied = store.backup(to).await;
        store.close().await;
        copied
    };
    copied.await.map_err(|why| Trouble::NotDone {
        what: "Nothing was copied.",
        instead: String::from(match why {
            There(_) => "Name a new file.",
            NotThere(_) | Foreign(_) => "Name the file of the workshops with --data.",
            _ => "",
        }),
        why,
    })?;
    say(&format!("Everything is copied into {}.", to.display()))
}

/// Puts a backup in the place of everything.
pub(crate) async fn restore(named: Option<&str>, from: &Path) -> Result<(), Trouble> {
    let Place::File(file) = place(named) else {
        return Err(Trouble::NotDone {
            what: "Nothing was restored.",
            why: Other(String::from(
                "a PostgreSQL database is restored with its own pg_restore; afterwards run in it \
                 UPDATE workshop SET last = last + 4294967296, so that devices notice",
            )),
            instead: String::new(),
        });
    };
    let aside = foldwright_sync::restore(from, &file).await;
    let aside = aside.map_err(|why| {
        let another = match &why {
            Foreign(_) | NotThere(_) => "Name a file that --backup made. ",
            _ => "",
        };
        Trouble::NotDone {
            what: "Nothing was restored.",
            instead: format!("{another}What {} holds is as it was.", file.display()),
            why,
        }
    })?;
    say(&match aside {
        Some(aside) => format!(
            "{} is back. What was there before is now {}.",
            from.display(),
            aside.display()
        ),
        None => format!("{} is back.", from.display()),
    })
}

/// Prints a code for a device of a workshop.
pub(crate) async fn invite(named: Option<&str>, name: &str) -> Result<(), Trouble> {
    let code = async {
        let hub = Hub::start(place(named).visit().await?).await?;
        let code = hub.invite(name).await;
        hub.close().await;
        code
    };
    let code = code.await.map_err(|why| Trouble::NotDone {
        what: "There is no code.",
        instead: String::from(match why {
            Foreign(_) => "Name the file of the workshops with --data.",
            _ => "",
        }),
        why,
    })?;
    say(&format!(
        "A device comes into “{}” with the code {code}, once and within a day.",
        name.trim()
    ))
}

fn say(what: &str) -> Result<(), Trouble> {
    writeln!(io::stdout(), "{what}").map_err(Trouble::System)
}

/// The folder that things kept beside workshops go into.
pub(crate) fn folder(named: Option<&str>) -> PathBuf {
    let file = match place(named) {
        Place::File(file) => file,
        Place::Database(_) => beside_program(),
    };
    file.parent().map(Path::to_owned).unwrap_or_default()
}

fn place(named: Option<&str>) -> Place {
    named.map_or_else(|| Place::File(beside_program()), Place::from)
}

fn beside_program() -> PathBuf {
    let program = std::env::current_exe().unwrap_or_default();
    program.with_file_name(FILE)
}
