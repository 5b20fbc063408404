//! SQLite: one file beside the server, nothing to set up.

use std::collections::BTreeMap;
use std::fs::{File, TryLockError};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use futures_util::TryStreamExt as _;
use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqlitePoolOptions, SqliteSynchronous};
use sqlx::{
    Connection as _, QueryBuilder, Sqlite as Db, SqliteConnection, SqlitePool, Transaction,
};
use tokio::sync::mpsc;

use super::schema::STEPS;
use super::sql::{BATCH, MOST, ROWS, device, kept, share, store};
use super::{Change, Device, Hash, Kept, News, Share, Store, Trouble, Workshop};

/// How long one writer waits for another.
const PATIENCE: Duration = Duration::from_secs(10);
/// Readers beside the one who writes.
const CONNECTIONS: u32 = 4;

/// How long one server waits for another that is about to end.
const HANDOVER: Duration = Duration::from_secs(2);
/// How long to wait before another try to open a file that is busy.
const PAUSE: Duration = Duration::from_millis(50);

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
        let alone = alone(file).await?;
        let store = Self::visit(file).await?;
        Ok(Self {
            _alone: Some(alone),
            ..store
        })
    }

    /// Opens the file beside a server that may have it.
    pub async fn visit(file: &Path) -> Result<Self, Trouble> {
        let until = Instant::now() + PATIENCE;
        loop {
            // SQLite does not wait by itself while another turns the file
            // into one with a write-ahead log.
            match Self::connect(file).await {
                Err(Trouble::Busy) if Instant::now() < until => tokio::time::sleep(PAUSE).await,
                opened => return opened,
            }
        }
    }

    async fn connect(file: &Path) -> Result<Self, Trouble> {
        let options = SqliteConnectOptions::new()
            .filename(file)
            .create_if_missing(true)
            .journal_mode(SqliteJournalMode::Wal)
            // Every commit is on the disk before it is acknowledged.
            .synchronous(SqliteSynchronous::Full)
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

    /// Makes a copied backup ready to be served: finds it sound, and raises
    /// the numbers of its workshops above all that were given after the backup
    /// was made. A device asks for what follows the last number it has; what
    /// comes from now on must not hide below that.
    pub(crate) async fn ready(file: &Path) -> Result<(), Trouble> {
        let options = SqliteConnectOptions::new().filename(file);
        let pool = SqlitePoolOptions::new().connect_with(options).await?;
        let tables = "SELECT COUNT(*) FROM sqlite_schema WHERE name IN ('step', 'workshop')";
        let found: i64 = sqlx::query_scalar(tables).fetch_one(&pool).await?;
        pool.close().await;
        if found != 2 {
            return Err(Trouble::Other(String::from("this is no backup")));
        }
        let store = Self::visit(file).await?;
        sqlx::query("UPDATE workshop SET last = last + $1")
            .bind(GENERATION)
            .execute(&store.pool)
            .await?;
        store.close().await;
        Ok(())
    }

    /// Closes the file; what was written is in it alone then.
    pub async fn close(&self) {
        self.pool.close().await;
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

    async fn copy(&self, to: &Path) -> Result<(), Trouble> {
        let to = to.to_str().ok_or_else(|| {
            Trouble::Other(String::from("the name of the backup is not readable text"))
        })?;
        sqlx::query("VACUUM INTO $1")
            .bind(to)
            .execute(&self.pool)
            .await?;
        Ok(())
    }

    #[expect(
        clippy::unused_async,
        reason = "the other store has to ask its database"
    )]
    async fn hear(&self) -> Result<Option<mpsc::Receiver<News>>, Trouble> {
        Ok(None)
    }
}

/// The lock of the one who serves a file. The system lets go of it however
/// the process ends.
pub(crate) async fn alone(file: &Path) -> Result<File, Trouble> {
    let lock = File::create(beside(file, "-lock"))?;
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

/// A file of the same name with something after it.
pub(crate) fn beside(file: &Path, after: &str) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(after);
    name.into()
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
