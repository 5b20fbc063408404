//! Keeps the documents of workshops, and passes them between devices.
//!
//! A workshop is a number of devices that share everything. Changes of its
//! documents are numbered as they are kept, so that a device that was away
//! asks for those after the last it has. The server merges documents only to
//! answer, to compact and to share them; it does not know what they mean. Beside
//! them it has the photographs of paper that recipes name.

mod api;
mod hub;
mod photos;
mod rate;
mod restore;
mod secret;
mod socket;
pub mod store;

use std::path::PathBuf;
use std::sync::Arc;

pub use hub::Hub;
pub use restore::restore;

use axum::Router;
use store::{Postgres, Sqlite, Store, Trouble};

/// What devices ask besides server functions, for this site's own pages only: the
/// socket, and photographs.
pub fn route(hub: Arc<Hub>) -> Router {
    socket::route(Arc::clone(&hub)).merge(photos::route(hub))
}

/// Where a server keeps its workshops.
#[derive(Debug, Clone)]
pub enum Place {
    /// In a SQLite file.
    File(PathBuf),
    /// In a PostgreSQL database at this address.
    Database(String),
}

impl From<&str> for Place {
    fn from(text: &str) -> Self {
        if text.starts_with("postgres://") || text.starts_with("postgresql://") {
            Self::Database(text.to_owned())
        } else {
            Self::File(PathBuf::from(text))
        }
    }
}

impl Place {
    /// Opens the store to serve it, makes its tables where they are missing,
    /// and checks it.
    pub async fn open(&self) -> Result<Arc<dyn Store>, Trouble> {
        Ok(match self {
            Self::File(file) => Arc::new(Sqlite::open(file).await?),
            Self::Database(address) => Arc::new(database(address).await?),
        })
    }

    /// Whether something is kept there.
    pub async fn is_there(&self) -> Result<bool, Trouble> {
        Ok(match self {
            Self::File(file) => store::look(file).await? == store::Found::Workshops,
            Self::Database(_) => true,
        })
    }

    /// Opens the store for a moment, beside a server that may have it.
    pub async fn visit(&self) -> Result<Arc<dyn Store>, Trouble> {
        Ok(match self {
            Self::File(file) => Arc::new(Sqlite::visit(file).await?),
            Self::Database(address) => Arc::new(database(address).await?),
        })
    }
}

async fn database(address: &str) -> Result<Postgres, Trouble> {
    let instance = secret::instance()
        .map_err(|_| Trouble::Other(String::from("the system has no random numbers to give")))?;
    Postgres::open(address, instance).await
}
