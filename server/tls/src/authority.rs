//! The authority of one's own, which signs the server's certificate.

use std::fmt::Write as _;
use std::fs;
use std::io::{self, ErrorKind, Write as _};
use std::path::{Path, PathBuf};

use rcgen::{
    BasicConstraints, CertificateParams, CertifiedIssuer, DnType, ExtendedKeyUsagePurpose, IsCa,
    Issuer, KeyPair, KeyUsagePurpose, SanType,
};
use rustls::pki_types::pem::PemObject as _;
use rustls::pki_types::{CertificateDer, PrivateKeyDer};
use sha2::{Digest as _, Sha256};
use tempfile::NamedTempFile;
use time::{Duration, OffsetDateTime};
use x509_parser::certificate::X509Certificate;
use x509_parser::prelude::FromDer as _;

use crate::names::Names;
use crate::scope::{self, Scope};
use crate::served::{Served, Unfit};
use crate::trouble::Trouble;

/// Holds key and certificate together, so that one is never there without the
/// other.
const FILE: &str = "authority.pem";

/// Devices have to be told to trust it by hand, so it lives long.
const LIFE: Duration = Duration::days(3650);

/// What phones accept of a server's certificate is 398 days at most.
const SERVED_LIFE: Duration = Duration::days(397);

/// Certificates begin in the past, for devices whose clocks are behind.
const BEHIND: Duration = Duration::DAY;

/// An authority that devices come to trust.
pub(crate) struct Authority {
    /// What devices list it as.
    pub(crate) name: String,
    /// Its certificate, in DER form.
    pub(crate) certificate: CertificateDer<'static>,
    file: PathBuf,
    issuer: Issuer<'static, KeyPair>,
    scope: Scope,
    begins: OffsetDateTime,
    ends: OffsetDateTime,
}

impl Authority {
    /// The one kept in `folder`. Where there is none, or it has run out, one
    /// is made that may sign for `names`.
    pub(crate) fn open(folder: &Path, names: &Names, now: OffsetDateTime) -> Result<Self, Trouble> {
        let file = folder.join(FILE);
        let kept = match fs::read(&file) {
            Ok(pem) => Some(Self::read(&file, &pem)?),
            Err(why) if why.kind() == ErrorKind::NotFound => None,
            Err(why) => return Err(Trouble::Reading { file, why }),
        };
        match kept {
            Some(kept) if now < kept.ends => {
                guard(&file).map_err(|why| keeping(folder, why))?;
                Ok(kept)
            }
            _ => {
                let pem = make(names, now).map_err(|why| Trouble::Signing(why.to_string()))?;
                keep(folder, &file, &pem).map_err(|why| keeping(folder, why))?;
                Self::read(&file, pem.as_bytes())
            }
        }
    }

    fn read(file: &Path, pem: &[u8]) -> Result<Self, Trouble> {
        let damaged = |why: String| Trouble::Authority {
            file: file.to_owned(),
            why,
        };
        let certificate = CertificateDer::from_pem_slice(pem)
            .map_err(|_| damaged(String::from("it holds no certificate")))?;
        let key = PrivateKeyDer::from_pem_slice(pem)
            .map_err(|_| damaged(String::from("it holds no key")))?;
        let usable = Served::new(vec![certificate.clone()], key.clone_key());
        let usable = usable.map_err(|unfit| match unfit {
            Unfit::Certificate(why) | Unfit::Key(why) => damaged(why),
            Unfit::Mismatch => damaged(String::from("key and certificate do not match")),
        })?;
        let issuer = KeyPair::try_from(&key)
            .and_then(|key| Issuer::from_ca_cert_der(&certificate, key))
            .map_err(|why| damaged(why.to_string()))?;
        let (_, parsed) =
            X509Certificate::from_der(&certificate).map_err(|why| damaged(why.to_string()))?;
        let name = parsed
            .subject()
            .iter_common_name()
            .find_map(|name| name.as_str().ok())
            .unwrap_or_default()
            .to_owned();
        let scope = Scope::of(&parsed);
        Ok(Self {
            name,
            file: file.to_owned(),
            issuer,
            scope,
            begins: usable.begins,
            ends: usable.ends,
            certificate,
        })
    }

    /// The file it is kept in.
    pub(crate) fn file(&self) -> &Path {
        &self.file
    }

    /// Those of `names` it may sign for.
    pub(crate) fn within(&self, names: &Names) -> Names {
        self.scope.within(names)
    }

    /// Signs a certificate for what it may of `names`, with a new key that is
    /// kept nowhere else: a server that starts makes another.
    pub(crate) fn issue(&self, names: &Names, now: OffsetDateTime) -> Result<Served, Trouble> {
        if self.ends <= now {
            return Err(Trouble::RanOut {
                file: self.file.clone(),
                on: self.ends.date(),
            });
        }
        let within = self.within(names);
        if within != *names {
            tracing::info!(?names, ?within, "some names are none of the authority's");
        }
        let signed = || -> Result<_, rcgen::Error> {
            let key = KeyPair::generate()?;
            let mut params = CertificateParams::default();
            for name in within.dns {
                params
                    .subject_alt_names
                    .push(SanType::DnsName(name.try_into()?));
            }
            let ips = within.ips.into_iter().map(SanType::IpAddress);
            params.subject_alt_names.extend(ips);
            params.distinguished_name = rcgen::DistinguishedName::new();
            params
                .distinguished_name
                .push(DnType::CommonName, "Foldwright");
            params.not_before = self.begins.max(now - BEHIND);
            params.not_after = self.ends.min(params.not_before + SERVED_LIFE);
            params.key_usages = vec![KeyUsagePurpose::DigitalSignature];
            params.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
            params.use_authority_key_identifier_extension = true;
            let certificate = params.signed_by(&key, &self.issuer)?;
            Ok((certificate.der().clone(), key.serialize_der()))
        };
        let (certificate, key) = signed().map_err(|why| Trouble::Signing(why.to_string()))?;
        let key = PrivateKeyDer::Pkcs8(key.into());
        Served::new(vec![certificate], key)
            .map_err(|unfit| Trouble::Signing(format!("the certificate is unfit: {unfit:?}")))
    }

    /// The SHA-256 of the certificate in four rows of eight pairs of digits,
    /// as phones show it.
    pub(crate) fn fingerprint(&self) -> String {
        let mut rows = String::new();
        for (at, byte) in Sha256::digest(&self.certificate).iter().enumerate() {
            let before = match at {
                0 => "",
                _ if at.is_multiple_of(8) => "\n",
                _ => " ",
            };
            // Writing to a string cannot fail.
            let _ = write!(rows, "{before}{byte:02X}");
        }
        rows
    }
}

fn keeping(folder: &Path, why: io::Error) -> Trouble {
    Trouble::Keeping {
        folder: folder.to_owned(),
        why,
    }
}

/// Makes an authority: its key and its certificate, in PEM form.
fn make(names: &Names, now: OffsetDateTime) -> Result<String, rcgen::Error> {
    let key = KeyPair::generate()?;
    let mut params = CertificateParams::default();
    // A device may come to list several, and the older ones have to go.
    let machine: String = names.machine().chars().take(30).collect();
    let name = format!("Foldwright on {machine}, {}", now.date());
    params.distinguished_name = rcgen::DistinguishedName::new();
    params.distinguished_name.push(DnType::CommonName, name);
    params.not_before = now - BEHIND;
    params.not_after = params.not_before + LIFE;
    params.is_ca = IsCa::Ca(BasicConstraints::Constrained(0));
    params.key_usages = vec![KeyUsagePurpose::KeyCertSign];
    // What it signs vouches for servers and for nothing else, such as programs
    // or letters, which the names it is limited to do not rule out.
    params.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
    params.name_constraints = Some(scope::around(names));
    let made = CertifiedIssuer::self_signed(params, key)?;
    Ok(format!("{}{}", made.key().serialize_pem(), made.pem()))
}

/// Writes the file whole or not at all, for its owner only.
fn keep(folder: &Path, file: &Path, pem: &str) -> io::Result<()> {
    fs::create_dir_all(folder)?;
    // These are made with 0600 from the start.
    let mut draft = NamedTempFile::new_in(folder)?;
    draft.write_all(pem.as_bytes())?;
    draft.as_file().sync_all()?;
    draft.persist(file)?;
    #[cfg(unix)]
    fs::File::open(folder)?.sync_all()?;
    Ok(())
}

/// Takes the file from other accounts, should a copy have come back with
/// wider permissions.
#[cfg(unix)]
fn guard(file: &Path) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt as _;
    let mode = fs::metadata(file)?.permissions().mode() & 0o777;
    let others = mode & 0o077;
    if others == 0 {
        return Ok(());
    }
    tracing::warn!(
        file = %file.display(),
        "other accounts could use the authority's key ({mode:o}); it is the owner's alone now"
    );
    fs::set_permissions(file, fs::Permissions::from_mode(0o600))
}

#[cfg(not(unix))]
fn guard(_: &Path) -> io::Result<()> {
    Ok(())
}
