//! Why the server does not do what it is asked.

use leptos::server_fn::codec::JsonEncoding;
use leptos::server_fn::error::{FromServerFnError, ServerFnErrorErr};
use serde::{Deserialize, Serialize};

use crate::Ailing;

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
    /// The server is in trouble.
    Trouble(Ailing),
    /// The server was not reached.
    Unreached,
}

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
            _ => Self::Trouble(Ailing::Other),
        }
    }
}
