//! Why HTTPS cannot be served, in words for the person who started the server.

use std::fmt;
use std::io;
use std::path::PathBuf;

use time::Date;

/// Why HTTPS cannot be served, and what to do.
#[derive(Debug)]
pub enum Trouble {
    /// A certificate or key file cannot be read.
    Reading {
        /// The file.
        file: PathBuf,
        /// What the system said.
        why: io::Error,
    },
    /// A file holds no usable certificate or key.
    Content {
        /// The file.
        file: PathBuf,
        /// What is wrong with it.
        why: String,
    },
    /// The key belongs to another certificate.
    Mismatch {
        /// The certificate's file.
        certificate: PathBuf,
        /// The key's file.
        key: PathBuf,
    },
    /// The certificate is not valid on this day.
    Dates {
        /// The certificate's file.
        file: PathBuf,
        /// Its first day.
        from: Date,
        /// Its last day.
        until: Date,
    },
    /// The certificate in a file is about to run out, or has.
    RunsOut {
        /// The certificate's file.
        file: PathBuf,
        /// Its last day.
        on: Date,
    },
    /// The own authority cannot be kept.
    Keeping {
        /// The folder it belongs in.
        folder: PathBuf,
        /// What the system said.
        why: io::Error,
    },
    /// What is kept of the own authority cannot be used.
    Authority {
        /// The file.
        file: PathBuf,
        /// What is wrong with it.
        why: String,
    },
    /// The own authority has run out.
    RanOut {
        /// The authority's file.
        file: PathBuf,
        /// Its last day.
        on: Date,
    },
    /// The own authority may not sign for the address the server is to have.
    OutOfScope {
        /// The host of that address.
        host: String,
        /// The authority's file.
        file: PathBuf,
    },
    /// A certificate cannot be signed.
    Signing(String),
    /// The addresses of this machine cannot be told.
    Machine(io::Error),
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Reading { file, why } => write!(
                f,
                "{} cannot be read: {why}.\nCheck the name and who may read the file; --tls own \
                 works without one.",
                file.display()
            ),
            Self::Content { file, why } => write!(
                f,
                "{} cannot be used: {why}.\nBoth files must be in PEM form, the certificate \
                 first: --tls cert.pem,key.pem",
                file.display()
            ),
            Self::Mismatch { certificate, key } => write!(
                f,
                "the key in {} does not belong to the certificate in {}.\nName the two files \
                 that were made together.",
                key.display(),
                certificate.display()
            ),
            Self::Dates { file, from, until } => write!(
                f,
                "the certificate in {} is valid from {from} to {until} only.\nRenew it, and \
                 check the date of this computer.",
                file.display()
            ),
            Self::RunsOut { file, on } => write!(
                f,
                "the one in {} runs out on {on}.\nRenew it: new files are taken up while the \
                 server runs.",
                file.display()
            ),
            Self::Keeping { folder, why } => write!(
                f,
                "the authority for --tls own cannot be kept in {}: {why}.\nName another folder \
                 with --tls-folder.",
                folder.display()
            ),
            Self::Authority { file, why } => write!(
                f,
                "the authority in {} cannot be used: {why}.\nPut a copy of it back, or move the \
                 file away: a new one is made then, and every device has to trust that one anew.",
                file.display()
            ),
            Self::RanOut { file, on } => write!(
                f,
                "the authority in {} ran out on {on}.\nStart the server again: it makes a new \
                 one then, which every device has to trust anew.",
                file.display()
            ),
            Self::OutOfScope { host, file } => write!(
                f,
                "the authority in {} was not made for {host}.\nMove that file away to have one \
                 made that is; every device has to trust it anew.",
                file.display()
            ),
            Self::Signing(why) => write!(f, "no certificate can be made: {why}."),
            Self::Machine(why) => write!(
                f,
                "this computer does not tell its own addresses: {why}.\nHTTPS with certificate \
                 files does without them: --tls cert.pem,key.pem"
            ),
        }
    }
}

impl std::error::Error for Trouble {}
