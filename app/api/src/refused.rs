//! Why the server does not do what it is asked.

use std::fmt;

use leptos::server_fn::codec::JsonEncoding;
use leptos::server_fn::error::{FromServerFnError, ServerFnErrorErr};
use serde::{Deserialize, Serialize};

/// Why the server does not do what it is asked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Refused {
    /// The device has no key, or one that no longer opens anything.
    NoKey,
    /// There is no such thing, or not any more.
    Missing,
    /// The question makes no sense.
    Senseless,
    /// A name that nobody could read.
    Nameless,
    /// Too many codes were tried.
    TooMany,
    /// The server is in trouble, in its own words.
    Trouble(String),
    /// The server was not reached.
    Unreached,
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoKey => "This device is not paired, or no longer.",
            Self::Missing => "There is no such thing, or not any more.",
            Self::Senseless => "The server does not understand that.",
            Self::Nameless => "A name needs at least one letter, digit or sign to see.",
            Self::TooMany => "Too many codes were tried. Wait a minute and try again.",
            Self::Trouble(why) => why,
            Self::Unreached => "The server can’t be reached. Try again when it can.",
        })
    }
}

impl std::error::Error for Refused {}

impl FromServerFnError for Refused {
    type Encoder = JsonEncoding;

    fn from_server_fn_error(value: ServerFnErrorErr) -> Self {
        match value {
            // On a server it is the question that cannot be read; elsewhere it
            // is what a proxy or another server said.
            ServerFnErrorErr::Deserialization(_) if cfg!(feature = "ssr") => Self::Senseless,
            ServerFnErrorErr::Request(_)
            | ServerFnErrorErr::Response(_)
            | ServerFnErrorErr::Deserialization(_) => Self::Unreached,
            ServerFnErrorErr::Args(_)
            | ServerFnErrorErr::MissingArg(_)
            | ServerFnErrorErr::UnsupportedRequestMethod(_) => Self::Senseless,
            other => Self::Trouble(other.to_string()),
        }
    }
}
