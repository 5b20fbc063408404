//! The server's side of HTTPS as a whole: the certificate of this moment,
//! where it comes from, and when the next one is due.

use std::net::SocketAddr;
use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use time::OffsetDateTime;
use tokio::sync::watch;

use crate::authority::Authority;
use crate::choice::Choice;
use crate::files::Files;
use crate::names::Names;
use crate::origin::{self, Origin};
use crate::served::Served;
use crate::trouble::Trouble;

/// A certificate, kept current.
pub struct Tls {
    source: Source,
    current: watch::Sender<Served>,
    /// Where browsers find the server, where that was said.
    address: Option<Origin>,
    /// Where it listens.
    bound: SocketAddr,
}

enum Source {
    Own(Box<Authority>),
    Files(Files),
}

impl Tls {
    /// Reads or makes what is needed to serve at `bound`. The own authority is
    /// kept in `folder` and signs for `machine` and for the host of `address`,
    /// where browsers find the server.
    ///
    /// # Errors
    ///
    /// Says which file is missing, damaged or out of date.
    pub fn open(
        choice: &Choice,
        folder: &Path,
        bound: SocketAddr,
        address: Option<&Origin>,
        machine: Names,
        now: OffsetDateTime,
    ) -> Result<Arc<Self>, Trouble> {
        let (source, first) = match choice {
            Choice::Own => {
                let names = machine.and(address);
                let authority = Authority::open(folder, &names, now)?;
                let first = authority.issue(&names, now)?;
                if let Some(address) = address
                    && !first.names.has(address.host())
                {
                    return Err(Trouble::OutOfScope {
                        host: address.host().to_string(),
                        file: authority.file().to_owned(),
                    });
                }
                (Source::Own(Box::new(authority)), first)
            }
            Choice::Files { certificate, key } => {
                let (files, first) = Files::open(certificate, key, now)?;
                (Source::Files(files), first)
            }
        };
        Ok(Arc::new(Self {
            source,
            current: watch::Sender::new(first),
            address: address.cloned(),
            bound,
        }))
    }

    /// Looks whether another certificate is due, and takes it for connections
    /// from now on: the own authority signs one when a third of the life of
    /// the last is left, or when `machine` has other names; files are taken
    /// when they have changed. What fails leaves the old one in place.
    ///
    /// # Errors
    ///
    /// Says why a certificate that is due cannot be had, or that the one in
    /// files is about to run out.
    pub fn check(&self, machine: Names, now: OffsetDateTime) -> Result<(), Trouble> {
        let next = match &self.source {
            Source::Own(authority) => {
                let names = authority.within(&machine.and(self.address.as_ref()));
                let due = {
                    let current = self.current.borrow();
                    let life = current.ends - current.begins;
                    names != current.names || current.ends - now <= life / 3
                };
                due.then(|| authority.issue(&names, now)).transpose()?
            }
            Source::Files(files) => {
                let next = files.changed(now)?;
                if next.is_none() {
                    files.lasts(self.current.borrow().ends, now)?;
                }
                next
            }
        };
        if let Some(next) = next {
            tracing::info!(until = %next.ends.date(), "another certificate is in use");
            self.current.send_replace(next);
        }
        Ok(())
    }

    /// Goes on checking so often.
    pub async fn keep_fresh(&self, every: Duration) -> ! {
        let mut said = String::new();
        loop {
            tokio::time::sleep(every).await;
            let machine = Names::of_this_machine().map_err(Trouble::Machine);
            let checked =
                machine.and_then(|machine| self.check(machine, OffsetDateTime::now_utc()));
            let why = checked.map_or_else(|why| why.to_string(), |()| String::new());
            // Once is enough for what stays wrong.
            if why != said && !why.is_empty() {
                tracing::warn!("the certificate in use stays: {why}");
            }
            said = why;
        }
    }

    /// The best address to give out: the one that was said, else one that the
    /// certificate is for and that other devices most likely reach.
    pub fn origin(&self) -> Origin {
        if let Some(address) = &self.address {
            return address.clone();
        }
        let names = &self.current.borrow().names;
        let ip = self.bound.ip();
        let host = match &self.source {
            Source::Files(_) => names.best(),
            Source::Own(_) if ip.is_unspecified() => names.lan().map(origin::host),
            Source::Own(_) => None,
        };
        Origin::https(host.unwrap_or_else(|| origin::host(ip)), self.bound.port())
    }

    /// The address at which a host is served, if the certificate is for it.
    /// `header` is the `Host` header of a request.
    pub(crate) fn at(&self, header: &str) -> Option<Origin> {
        let host = self.current.borrow().names.find(header)?;
        Some(match &self.address {
            Some(address) if *address.host() == host => address.clone(),
            _ => Origin::https(host, self.bound.port()),
        })
    }

    /// Whether the certificate is one of a domain, which devices trust without
    /// being told to. Browsers may be told to take nothing but HTTPS there.
    pub fn is_of_a_domain(&self) -> bool {
        matches!(self.source, Source::Files(_)) && self.current.borrow().names.has_domain()
    }

    /// The own authority, where there is one.
    pub(crate) fn authority(&self) -> Option<&Authority> {
        match &self.source {
            Source::Own(authority) => Some(authority),
            Source::Files(_) => None,
        }
    }

    /// The SHA-256 of the own authority's certificate, in four rows.
    pub fn fingerprint(&self) -> Option<String> {
        self.authority().map(Authority::fingerprint)
    }

    pub(crate) fn current(&self) -> watch::Receiver<Served> {
        self.current.subscribe()
    }
}
