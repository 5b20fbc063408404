//! SQLite: one file beside the server, nothing to set up.

use std::collections::BTreeMap;
use std::fs::{self, File, TryLockError};
use std::io::ErrorKind;
use std::path::Path;
use std::time::{Duration, Instant};

use foldwright_api::has_room_for;
use futures_util::TryStreamExt as _;
use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqlitePoolOptions, SqliteSynchronous};
use sqlx::{
    Connection as _, Executor, QueryBuilder, Sqlite as Db, SqliteConnection, SqlitePool,
    Transaction,
};
use tokio::sync::mpsc;

use super::file::{beside, guard, look, make, read, take_from_others};
use super::schema::STEPS;
use super::sql::{BATCH, MOST, ROWS, device, kept, photo, share, store};
use super::{Change, Device, Disk, Hash, Kept, News, Photo, Share, Store, Trouble, Workshop};

/// How long one writer waits for another.
pub(super) const PATIENCE: Duration = Duration::from_secs(10);
/// Readers beside the one who writes.
const CONNECTIONS: u32 = 4;

/// How long one server waits for another that is about to end.
const HANDOVER: Duration = Duration::from_secs(2);
/// How long to wait before another try to open a file that is busy.
pub(super) const PAUSE: Duration = Duration::from_millis(50);

/// By how much a restored backup raises numbers. Our own bound: more changes
/// than a workshop makes between two backups.
const GENERATION: i64 = 1 << 32;

/// A store in one file.
#[derive(Debug)]
pub struct Sqlite {
    pool: SqlitePool,
    instance: u8,
    /// Locked for as long as it is open, where this is the one who serves.
    _alone: Option<File>,
}

impl Sqlite {
    /// Opens the file to serve it, makes it where there is none, and checks
    /// it. Refused while another server has it: the two would not hear of each
    /// other's changes.
    pub async fn open(file: &Path) -> Result<Self, Trouble> {
        look(file).await?;
        let alone = alone(file).await?;
        let store = Self::visit(file).await?;
        Ok(Self {
            _alone: Some(alone),
            ..store
        })
    }

    /// Opens the file beside a server that may have it.
    pub async fn visit(file: &Path) -> Result<Self, Trouble> {
        look(file).await?;
        let until = Instant::now() + PATIENCE;
        loop {
            // SQLite does not wait by itself while another turns the file
            // into one with a write-ahead log.
            match Self::connect(file).await {
                Err(Trouble::Busy) if Instant::now() < until => tokio::time::sleep(PAUSE).await,
                opened => return opened.map_err(|why| why.of(file)),
            }
        }
    }

    async fn connect(file: &Path) -> Result<Self, Trouble> {
        guard(file)?;
        let options = SqliteConnectOptions::new()
            .filename(file)
            .create_if_missing(true)
            .journal_mode(SqliteJournalMode::Wal)
            // Every commit is on the disk before it is acknowledged.
            .synchronous(SqliteSynchronous::Full)
            // What was erased is not left lying in the file.
            .pragma("secure_delete", "on")
            .busy_timeout(PATIENCE);
        let pool = SqlitePoolOptions::new()
            .max_connections(CONNECTIONS)
            .acquire_timeout(PATIENCE)
            // Where a disk is full SQLite itself ends the transaction, and the
            // connection waits for an end that does not come.
            .before_acquire(|connection, _| {
                let free = !connection.is_in_transaction();
                Box::pin(async move { Ok(free) })
            })
            .connect_with(options)
            .await?;
        let store = Self {
            pool,
            instance: 0,
            _alone: None,
        };
        store.sound().await?;
        store.migrate("BLOB").await?;
        Ok(store)
    }

    /// Copies a backup into a new file, ready to be served: finds it sound, and
    /// raises the numbers of its workshops above all that were given after the
    /// backup was made. A device asks for what follows the last number it has;
    /// what comes from now on must not hide below that.
    pub(crate) async fn bring(backup: &Path, into: &Path) -> Result<(), Trouble> {
        let mut kept = read(backup)
            .await
            .map_err(|why| Trouble::from(why).of(backup))?;
        let copied = copy(&mut kept, into).await;
        // What was only read is closed whether or not that is said.
        let _ = kept.close().await;
        copied.map_err(|why| why.of(backup))?;
        let store = Self::visit(into).await?;
        let raised = sqlx::query("UPDATE workshop SET last = last + $1")
            .bind(GENERATION)
            .execute(&store.pool)
            .await;
        store.close().await;
        raised?;
        Ok(())
    }

    async fn sound(&self) -> Result<(), Trouble> {
        let said: Vec<String> = sqlx::query_scalar("PRAGMA integrity_check(10)")
            .fetch_all(&self.pool)
            .await?;
        if said == ["ok"] {
            Ok(())
        } else {
            Err(Trouble::Damaged(said.join("; ")))
        }
    }

    fn own_disk(&self) -> Option<Disk> {
        let options = self.pool.connect_options();
        let there = fs4::statvfs(options.get_filename()).ok()?;
        let free = there.available_space();
        // Some of a disk may be set apart for others, and is neither.
        let taken = there.total_space().saturating_sub(there.free_space());
        Some(Disk {
            free,
            whole: taken.saturating_add(free),
        })
    }

    async fn copy(&self, to: &Path) -> Result<(), Trouble> {
        copy(&self.pool, to).await.map_err(|why| why.of(to))
    }

    #[expect(
        clippy::unused_async,
        reason = "the other store has to ask its database"
    )]
    async fn hear(&self) -> Result<Option<mpsc::Receiver<News>>, Trouble> {
        Ok(None)
    }
}

/// Copies everything into a new file of this account alone; nothing is left of
/// it where that does not go well.
async fn copy(from: impl Executor<'_, Database = Db>, to: &Path) -> Result<(), Trouble> {
    let name = to.to_str().ok_or_else(|| {
        Trouble::Other(String::from("the name of the backup is not readable text"))
    })?;
    make(to).map_err(|why| match why.kind() {
        ErrorKind::AlreadyExists => Trouble::There(to.to_owned()),
        _ => Trouble::from(why),
    })?;
    let copied = sqlx::query("VACUUM INTO $1").bind(name).execute(from).await;
    if copied.is_err() {
        // Half a copy is of no use; where it cannot be removed nothing else
        // can be done about it.
        let _ = fs::remove_file(to);
    }
    copied?;
    Ok(())
}

/// The lock of the one who serves a file. The system lets go of it however
/// the process ends.
pub(crate) async fn alone(file: &Path) -> Result<File, Trouble> {
    let path = beside(file, "-lock");
    let lock = match make(&path) {
        Err(why) if why.kind() == ErrorKind::AlreadyExists => {
            take_from_others(&path);
            File::create(&path)
        }
        made => made,
    };
    let lock = lock.map_err(|why| Trouble::from(why).of(file))?;
    let until = Instant::now() + HANDOVER;
    loop {
        match lock.try_lock() {
            Ok(()) => return Ok(lock),
            Err(TryLockError::WouldBlock) if Instant::now() < until => {
                tokio::time::sleep(PAUSE).await;
            }
            Err(TryLockError::WouldBlock) => return Err(Trouble::Taken),
            Err(TryLockError::Error(why)) => return Err(why.into()),
        }
    }
}

async fn begin(pool: &SqlitePool) -> Result<Transaction<'static, Db>, sqlx::Error> {
    pool.begin_with("BEGIN IMMEDIATE").await
}

/// Whoever has begun to write is alone.
#[expect(clippy::unused_async, reason = "the other store asks its database")]
async fn turn(_: &mut SqliteConnection, _: impl Iterator<Item = &str>) -> Result<(), sqlx::Error> {
    Ok(())
}

/// There is one instance only: nobody to tell.
#[expect(clippy::unused_async, reason = "the other store tells its database")]
async fn tell(_: &mut SqliteConnection, _: Vec<String>) -> Result<(), sqlx::Error> {
    Ok(())
}

store!(Sqlite, begin, turn, tell);
