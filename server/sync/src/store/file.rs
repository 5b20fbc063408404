//! The file of a store before it is opened: whose it is, and who may read it.

use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Read as _};
use std::path::{Path, PathBuf};

use sqlx::sqlite::{SqliteConnectOptions, SqliteConnection};
use sqlx::{ConnectOptions as _, Connection as _};

use super::Trouble;
use super::schema::STEPS;
use super::sqlite::{PATIENCE, PAUSE};

/// What SQLite keeps beside a file while it is open, or after a crash.
pub(crate) const COMPANIONS: [&str; 3] = ["", "-wal", "-shm"];

/// How a file of SQLite begins (its file format, §1.3).
const BEGINNING: &[u8; 16] = b"SQLite format 3\0";

/// What a file is to us.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Found {
    /// There is none, or one with nothing in it.
    Nothing,
    /// It holds workshops.
    Workshops,
}

/// Looks what a file is and changes nothing, neither in it nor beside it.
/// What is not ours, or a later version's, is refused.
pub(crate) async fn look(file: &Path) -> Result<Found, Trouble> {
    let first = look_once(file).await;
    if first.is_ok() {
        return first;
    }
    // Somebody may just have been making or closing it.
    tokio::time::sleep(PAUSE).await;
    look_once(file).await
}

async fn look_once(file: &Path) -> Result<Found, Trouble> {
    let about = |why: io::Error| Trouble::Away(why.to_string()).of(file);
    let mut beginning = Vec::new();
    match File::open(file) {
        Ok(open) => open.take(16).read_to_end(&mut beginning).map_err(about)?,
        Err(why) if why.kind() == ErrorKind::NotFound => return Ok(Found::Nothing),
        Err(why) => return Err(about(why)),
    };
    if beginning.is_empty() {
        return Ok(Found::Nothing);
    }
    if beginning != BEGINNING {
        return Err(Trouble::Foreign(file.to_owned()));
    }
    let looking = async {
        let mut connection = read(file).await?;
        let found = within(&mut connection).await;
        // What was only read is closed whether or not that is said.
        let _ = connection.close().await;
        found
    };
    let trouble = |why: sqlx::Error| match Trouble::from(why) {
        Trouble::NoDatabase => Trouble::Foreign(file.to_owned()),
        other => other.of(file),
    };
    match looking.await.map_err(trouble)? {
        Inside::Nothing => Ok(Found::Nothing),
        Inside::Steps(steps) if steps > STEPS.len() => Err(Trouble::Newer.of(file)),
        Inside::Steps(_) => Ok(Found::Workshops),
        Inside::Others => Err(Trouble::Foreign(file.to_owned())),
    }
}

/// Opens a file to read it; nothing is changed, neither in it nor beside it.
pub(super) async fn read(file: &Path) -> Result<SqliteConnection, sqlx::Error> {
    let unwritten = fs::metadata(beside(file, "-wal")).is_ok_and(|it| it.len() > 0);
    let options = SqliteConnectOptions::new()
        .filename(file)
        .read_only(true)
        // Where everything is in the file itself nothing is needed beside it.
        .immutable(!unwritten)
        .busy_timeout(PATIENCE);
    options.connect().await
}

/// What is in a database.
enum Inside {
    Nothing,
    /// Our tables, made in so many steps.
    Steps(usize),
    Others,
}

async fn within(connection: &mut SqliteConnection) -> Result<Inside, sqlx::Error> {
    let tables: i64 = sqlx::query_scalar("SELECT COUNT(*) FROM sqlite_schema")
        .fetch_one(&mut *connection)
        .await?;
    if tables == 0 {
        return Ok(Inside::Nothing);
    }
    // Others may have tables of these names, though hardly with all of these.
    let ours = "SELECT COUNT(*) FROM pragma_table_info('workshop') \
                WHERE name IN ('id', 'name', 'last', 'made')";
    let ours: i64 = sqlx::query_scalar(ours).fetch_one(&mut *connection).await?;
    let counted = "SELECT COUNT(*) FROM pragma_table_info('step') WHERE name = 'number'";
    let counted: i64 = sqlx::query_scalar(counted)
        .fetch_one(&mut *connection)
        .await?;
    if (ours, counted) != (4, 1) {
        return Ok(Inside::Others);
    }
    let steps: i64 = sqlx::query_scalar("SELECT COUNT(*) FROM step")
        .fetch_one(&mut *connection)
        .await?;
    Ok(Inside::Steps(usize::try_from(steps).unwrap_or(usize::MAX)))
}

/// Makes a file that only this account may use; refused where there is one.
pub(crate) fn make(file: &Path) -> io::Result<File> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.mode(0o600);
    }
    options.open(file)
}

/// Makes the file where there is none, and takes it and what is beside it from
/// other accounts. SQLite gives what it makes beside it the same permissions.
pub(crate) fn guard(file: &Path) -> io::Result<()> {
    match make(file) {
        Ok(_) => Ok(()),
        Err(why) if why.kind() == ErrorKind::AlreadyExists => {
            take_from_others(file);
            Ok(())
        }
        Err(why) => Err(why),
    }
}

/// Takes a file and what is beside it from other accounts.
#[cfg(unix)]
pub(crate) fn take_from_others(file: &Path) {
    use std::os::unix::fs::PermissionsExt as _;
    for file in COMPANIONS.map(|companion| beside(file, companion)) {
        let mode = fs::metadata(&file).map_or(0, |about| about.permissions().mode() & 0o777);
        let others = mode & 0o077;
        if others == 0 {
            continue;
        }
        let name = file.display();
        match fs::set_permissions(&file, fs::Permissions::from_mode(0o600)) {
            Ok(()) => tracing::warn!(
                "other accounts could use {name} ({mode:o}); it is the owner's alone now"
            ),
            Err(why) => tracing::warn!("other accounts can use {name} ({mode:o}): {why}"),
        }
    }
}

#[cfg(not(unix))]
pub(crate) fn take_from_others(_: &Path) {}

/// A file of the same name with something after it.
pub(crate) fn beside(file: &Path, after: &str) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(after);
    name.into()
}
