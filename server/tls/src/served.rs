//! The certificate that is shown to browsers.

use std::net::IpAddr;
use std::sync::Arc;

use rustls::crypto::ring::default_provider;
use rustls::pki_types::{CertificateDer, PrivateKeyDer};
use rustls::server::{ClientHello, ResolvesServerCert};
use rustls::sign::CertifiedKey;
use time::OffsetDateTime;
use tokio::sync::watch;
use x509_parser::certificate::X509Certificate;
use x509_parser::extensions::GeneralName;
use x509_parser::prelude::FromDer as _;

use crate::names::{Names, is_dns_name};

/// A certificate with its key, and what stands in it.
#[derive(Clone, Debug)]
pub(crate) struct Served {
    key: Arc<CertifiedKey>,
    pub(crate) names: Names,
    pub(crate) begins: OffsetDateTime,
    pub(crate) ends: OffsetDateTime,
}

/// Why a certificate and a key make no pair that can be served.
#[derive(Debug)]
pub(crate) enum Unfit {
    /// What is wrong with the certificate.
    Certificate(String),
    /// What is wrong with the key.
    Key(String),
    /// They do not belong together.
    Mismatch,
}

impl Served {
    /// Joins a certificate, followed by those that lead to its authority, and
    /// its key.
    pub(crate) fn new(
        chain: Vec<CertificateDer<'static>>,
        key: PrivateKeyDer<'static>,
    ) -> Result<Self, Unfit> {
        let first = chain
            .first()
            .ok_or_else(|| Unfit::Certificate(String::from("it holds no certificate")))?;
        let (_, parsed) = X509Certificate::from_der(first)
            .map_err(|why| Unfit::Certificate(format!("its certificate is damaged ({why})")))?;
        let names = names(&parsed);
        let validity = parsed.validity();
        let (begins, ends) = (
            validity.not_before.to_datetime(),
            validity.not_after.to_datetime(),
        );
        let key = default_provider()
            .key_provider
            .load_private_key(key)
            .map_err(|why| Unfit::Key(format!("its key is of no kind that is known ({why})")))?;
        let key = CertifiedKey::new(chain, key);
        key.keys_match().map_err(|_| Unfit::Mismatch)?;
        Ok(Self {
            key: Arc::new(key),
            names,
            begins,
            ends,
        })
    }

    pub(crate) fn is_valid(&self, now: OffsetDateTime) -> bool {
        (self.begins..=self.ends).contains(&now)
    }
}

/// The names and numbers a certificate is for.
fn names(certificate: &X509Certificate<'_>) -> Names {
    let mut names = Names::default();
    let alternatives = certificate.subject_alternative_name().ok().flatten();
    let all = alternatives.iter().flat_map(|all| &all.value.general_names);
    for name in all {
        match name {
            GeneralName::DNSName(name) => {
                let name = name.to_lowercase();
                if is_dns_name(name.strip_prefix("*.").unwrap_or(&name)) {
                    names.dns.insert(name);
                }
            }
            GeneralName::IPAddress(bytes) => {
                let v4 = <[u8; 4]>::try_from(*bytes).map(IpAddr::from);
                let v6 = <[u8; 16]>::try_from(*bytes).map(IpAddr::from);
                names.ips.extend(v4.or(v6));
            }
            _ => {}
        }
    }
    names
}

/// Shows every new connection the certificate of this moment.
#[derive(Debug)]
pub(crate) struct Current(pub(crate) watch::Receiver<Served>);

impl ResolvesServerCert for Current {
    fn resolve(&self, _: ClientHello<'_>) -> Option<Arc<CertifiedKey>> {
        Some(Arc::clone(&self.0.borrow().key))
    }
}
