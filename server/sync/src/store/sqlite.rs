//! SQLite: one file beside the server, nothing to set up.

use std::collections::BTreeMap;
use std::path::Path;
use std::time::Duration;

use futures_util::TryStreamExt as _;
use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqlitePoolOptions, SqliteSynchronous};
use sqlx::{Sqlite as Db, SqliteConnection, SqlitePool, Transaction};
use tokio::sync::mpsc;

use super::schema::STEPS;
use super::sql::{BATCH, MOST, device, kept, share, store};
use super::{Change, Device, Hash, Kept, News, Share, Store, Trouble, Workshop};

/// How long one writer waits for another.
const PATIENCE: Duration = Duration::from_secs(10);
/// Readers beside the one who writes.
const CONNECTIONS: u32 = 4;

/// A store in one file.
#[derive(Debug)]
pub struct Sqlite {
    pool: SqlitePool,
    instance: u8,
}

impl Sqlite {
    /// Opens the file, makes it where there is none, and checks it.
    pub async fn open(file: &Path) -> Result<Self, Trouble> {
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
            .connect_with(options)
            .await?;
        let store = Self { pool, instance: 0 };
        store.sound().await?;
        store.migrate("BLOB").await?;
        Ok(store)
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

async fn begin(pool: &SqlitePool) -> Result<Transaction<'static, Db>, sqlx::Error> {
    pool.begin_with("BEGIN IMMEDIATE").await
}

/// There is one instance only: nobody to tell.
#[expect(clippy::unused_async, reason = "the other store tells its database")]
async fn tell(_: &mut SqliteConnection, _: String) -> Result<(), sqlx::Error> {
    Ok(())
}

store!(Sqlite, begin, tell);
