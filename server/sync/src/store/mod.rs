//! Where workshops are kept: one trait over SQLite and PostgreSQL.

mod file;
mod postgres;
mod schema;
mod sql;
mod sqlite;

use std::fmt;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use async_trait::async_trait;
use foldwright_api::{Ailing, Photo};
use tokio::sync::mpsc;

pub(crate) use file::{COMPANIONS, Found, beside, look, take_from_others};
pub use postgres::Postgres;
pub use sqlite::Sqlite;
pub(crate) use sqlite::alone;

/// Why the store could not do something.
#[derive(Debug)]
pub enum Trouble {
    /// The disk is full.
    Full,
    /// The database may only be read.
    ReadOnly,
    /// The database can't be reached.
    Away(String),
    /// Others kept the database busy for too long.
    Busy,
    /// Another server has the database.
    Taken,
    /// The database is damaged; the text says where.
    Damaged(String),
    /// It was made by a later version.
    Newer,
    /// It is no database at all.
    NoDatabase,
    /// A workshop needs a name that can be read.
    Nameless,
    /// The file is something else than workshops of ours.
    Foreign(PathBuf),
    /// There is such a file already.
    There(PathBuf),
    /// There are no workshops in that file, or no such file.
    NotThere(PathBuf),
    /// What is wrong with that file.
    Of(PathBuf, Box<Trouble>),
    /// Anything else the database said.
    Other(String),
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Full => f.write_str("The disk of the server is full."),
            Self::ReadOnly => f.write_str("The server may not write to its database."),
            Self::Away(why) => write!(f, "The server cannot reach its database: {why}."),
            Self::Busy => f.write_str("The database of the server is busy. Try again."),
            Self::Taken => f.write_str(
                "Another Foldwright serves this database. Stop it first; several servers at once \
                 need PostgreSQL.",
            ),
            Self::Damaged(where_) => write!(
                f,
                "The database is damaged ({where_}). Stop the server and restore a backup."
            ),
            Self::Newer => f.write_str(
                "The database was made by a later Foldwright. Use that version, or a backup.",
            ),
            Self::Nameless => {
                f.write_str("A workshop needs a name, with at least one letter, digit or sign.")
            }
            Self::NoDatabase => f.write_str("That is no database."),
            Self::Foreign(file) => write!(
                f,
                "{} belongs to another program, or is no database at all. It was left as it is.",
                file.display()
            ),
            Self::There(file) => write!(
                f,
                "There is a file {} already, and nothing is written over.",
                file.display()
            ),
            Self::NotThere(file) => write!(f, "There are no workshops in {}.", file.display()),
            Self::Of(file, why) => match &**why {
                Self::Newer => write!(
                    f,
                    "{} was made by a later Foldwright. Use that version, or a backup that this \
                     one made.",
                    file.display()
                ),
                Self::Damaged(where_) => {
                    write!(f, "{} is damaged ({where_}). Use a backup.", file.display())
                }
                Self::Away(said) => write!(
                    f,
                    "{} cannot be used: {said}. Check its name, and who may use it.",
                    file.display()
                ),
                why => write!(f, "{}: {why}", file.display()),
            },
            Self::Other(why) => write!(f, "The database said: {why}."),
        }
    }
}

impl std::error::Error for Trouble {}

impl Trouble {
    /// What pages are told of it.
    pub(crate) fn ailing(&self) -> Ailing {
        match self {
            Self::Full => Ailing::Full,
            Self::ReadOnly => Ailing::ReadOnly,
            Self::Away(_) => Ailing::Away,
            Self::Busy => Ailing::Busy,
            Self::Damaged(_) => Ailing::Damaged,
            Self::Newer => Ailing::Newer,
            Self::Of(_, why) => why.ailing(),
            Self::Taken
            | Self::NoDatabase
            | Self::Nameless
            | Self::Foreign(_)
            | Self::There(_)
            | Self::NotThere(_)
            | Self::Other(_) => Ailing::Other,
        }
    }

    /// The same, said of a file; what names one already stays.
    #[must_use]
    pub(crate) fn of(self, file: &Path) -> Self {
        match self {
            Self::Foreign(_)
            | Self::There(_)
            | Self::NotThere(_)
            | Self::Of(..)
            | Self::Busy
            | Self::Taken => self,
            why => Self::Of(file.to_owned(), Box::new(why)),
        }
    }
}

/// A change of a document, to be kept.
#[derive(Debug, Clone)]
pub struct Change {
    /// Whose document.
    pub workshop: String,
    /// Its name.
    pub document: String,
    /// The change, encoded.
    pub update: Arc<[u8]>,
}

/// A change that is kept.
#[derive(Debug, Clone)]
pub struct Kept {
    /// Its number among the changes of its workshop, rising by one.
    pub number: i64,
    /// The document.
    pub document: String,
    /// The change; after compaction, all changes up to that number in one.
    pub update: Arc<[u8]>,
}

/// A workshop: those who share everything.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Workshop {
    /// Its name in the store.
    pub id: String,
    /// What people call it.
    pub name: String,
}

/// A device of a workshop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Device {
    /// Its name in the store.
    pub id: String,
    /// The workshop it belongs to.
    pub workshop: String,
    /// What people call it.
    pub name: String,
    /// When it was paired, in seconds since 1970.
    pub made: i64,
    /// When it was last seen, in seconds since 1970.
    pub seen: i64,
    /// Whether its key no longer opens anything.
    pub revoked: bool,
}

/// A document that anybody with its token may read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Share {
    /// Its name in the store.
    pub id: String,
    /// Whose document.
    pub workshop: String,
    /// The document.
    pub document: String,
    /// When it was shared, in seconds since 1970.
    pub made: i64,
}

/// A SHA-256 hash of something secret.
pub type Hash = [u8; 32];

/// What another instance over the same database did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum News {
    /// A workshop has changes up to this number.
    Changed(String, i64),
    /// A device was revoked.
    Revoked(String),
    /// News may have been missed.
    Missed,
}

/// Keeps workshops, their documents and devices.
#[async_trait]
pub trait Store: Send + Sync + 'static {
    /// Keeps changes, all or none, and returns the number of each. When this
    /// returns they outlast a crash.
    async fn append(&self, changes: &[Change]) -> Result<Vec<i64>, Trouble>;
    /// All there is of a document, to be merged; with the last number.
    async fn document(&self, workshop: &str, document: &str) -> Result<Vec<Kept>, Trouble>;
    /// The number of a document's last change; `None` where there is no such
    /// document.
    async fn state(&self, workshop: &str, document: &str) -> Result<Option<i64>, Trouble>;
    /// The next changes after a number, in order, about so many bytes.
    async fn since(&self, workshop: &str, number: i64) -> Result<Vec<Kept>, Trouble>;
    /// The number of a workshop's last change.
    async fn last(&self, workshop: &str) -> Result<i64, Trouble>;
    /// Documents with at least so many changes apart.
    async fn scattered(&self, changes: i64) -> Result<Vec<(String, String)>, Trouble>;
    /// Puts one update in place of all of a document's up to a number.
    async fn compact(
        &self,
        workshop: &str,
        document: &str,
        upto: i64,
        whole: &[u8],
    ) -> Result<(), Trouble>;

    /// Makes a workshop.
    async fn add_workshop(&self, workshop: &Workshop, at: i64) -> Result<(), Trouble>;
    /// Calls a workshop something else; says whether there is one.
    async fn rename_workshop(&self, workshop: &str, name: &str) -> Result<bool, Trouble>;
    /// All workshops.
    async fn workshops(&self) -> Result<Vec<Workshop>, Trouble>;

    /// Adds a device that shows itself by a key of that hash.
    async fn add_device(&self, device: &Device, key: &Hash) -> Result<(), Trouble>;
    /// The device of a key that is not revoked.
    async fn device(&self, key: &Hash) -> Result<Option<Device>, Trouble>;
    /// All devices of a workshop.
    async fn devices(&self, workshop: &str) -> Result<Vec<Device>, Trouble>;
    /// Notes when a device was seen.
    async fn seen(&self, device: &str, at: i64) -> Result<(), Trouble>;
    /// Calls a device of that workshop something else; says whether there is
    /// one.
    async fn rename_device(
        &self,
        workshop: &str,
        device: &str,
        name: &str,
    ) -> Result<bool, Trouble>;
    /// Which device revoked that of a key, by its name; `None` where the key is
    /// not revoked or unknown.
    async fn remover(&self, key: &Hash) -> Result<Option<String>, Trouble>;
    /// Revokes a device of that workshop in the name of another; says whether
    /// there was one.
    async fn revoke(&self, workshop: &str, device: &str, remover: &str) -> Result<bool, Trouble>;

    /// Offers a place in a workshop to whoever knows a code, until then.
    async fn offer(&self, code: &Hash, workshop: &Workshop, until: i64) -> Result<(), Trouble>;
    /// Takes the place offered under a code, once and in time.
    async fn accept(&self, code: &Hash, now: i64) -> Result<Option<Workshop>, Trouble>;

    /// Shares a document under a token of that hash.
    async fn share(&self, share: &Share, token: &Hash) -> Result<(), Trouble>;
    /// What a token opens.
    async fn shared(&self, token: &Hash) -> Result<Option<Share>, Trouble>;
    /// All shares of a workshop.
    async fn shares(&self, workshop: &str) -> Result<Vec<Share>, Trouble>;
    /// Ends a share of that workshop; says whether there was one.
    async fn unshare(&self, workshop: &str, share: &str) -> Result<bool, Trouble>;

    /// The photographs of a workshop, in the order of their names.
    async fn photos(&self, workshop: &str) -> Result<Vec<Photo>, Trouble>;
    /// The file of a photograph of that workshop.
    async fn photo(&self, workshop: &str, name: &str) -> Result<Option<Vec<u8>>, Trouble>;
    /// Keeps a photograph, unless it is there already; says whether there was room for
    /// it. When this returns it outlasts a crash.
    async fn keep_photo(&self, workshop: &str, name: &str, file: &[u8]) -> Result<bool, Trouble>;
    /// Forgets a photograph of that workshop; says whether there was one.
    async fn forget_photo(&self, workshop: &str, name: &str) -> Result<bool, Trouble>;

    /// How many bytes the changes and the photographs of a workshop take.
    async fn taken(&self, workshop: &str) -> Result<i64, Trouble>;
    /// The disk that everything is on, where it is the server's own.
    async fn disk(&self) -> Option<Disk>;
    /// Whether everything is readable and consistent.
    async fn check(&self) -> Result<(), Trouble>;
    /// Copies everything into a new file while work goes on.
    async fn backup(&self, to: &Path) -> Result<(), Trouble>;
    /// What other instances do from now on; nothing where there are none.
    async fn listen(&self) -> Result<Option<mpsc::Receiver<News>>, Trouble>;
    /// Ends all connections, once each has done what it is about. A file that
    /// nobody else has open holds everything by itself then.
    async fn close(&self);
}

/// How much room there is on a disk, in bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Disk {
    /// For what may still be written.
    pub free: u64,
    /// All in all.
    pub whole: u64,
}

impl From<io::Error> for Trouble {
    fn from(why: io::Error) -> Self {
        match why.kind() {
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Self::Full,
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => Self::ReadOnly,
            _ => Self::Away(why.to_string()),
        }
    }
}

impl From<sqlx::Error> for Trouble {
    fn from(error: sqlx::Error) -> Self {
        match &error {
            sqlx::Error::Database(said) => match said.code().as_deref() {
                Some("13" | "53100") => Self::Full,
                Some("8" | "264" | "520" | "776" | "1032" | "1288" | "1544" | "25006") => {
                    Self::ReadOnly
                }
                Some("11" | "267" | "523" | "779") => Self::Damaged(said.to_string()),
                Some("26") => Self::NoDatabase,
                Some("5" | "6" | "261" | "262" | "517") => Self::Busy,
                Some(
                    "10" | "14" | "266" | "778" | "1034" | "1290" | "57P01" | "57P02" | "57P03"
                    | "53300",
                ) => Self::Away(said.to_string()),
                _ => Self::Other(said.to_string()),
            },
            sqlx::Error::PoolTimedOut => Self::Away(String::from("it does not answer")),
            sqlx::Error::Io(_) | sqlx::Error::PoolClosed => Self::Away(error.to_string()),
            _ => Self::Other(error.to_string()),
        }
    }
}
