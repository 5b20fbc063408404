//! A certificate and its key in files that someone else renews.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use rustls::pki_types::pem::PemObject as _;
use rustls::pki_types::{CertificateDer, PrivateKeyDer};
use time::{Duration, OffsetDateTime};

use crate::served::{Served, Unfit};
use crate::trouble::Trouble;

/// How long before a certificate runs out that is said. Our own choice: those
/// who renew certificates by themselves do so weeks before.
const NOTICE: Duration = Duration::days(7);

/// The two files, and what those held from which the certificate in use came.
#[derive(Debug)]
pub(crate) struct Files {
    certificate: PathBuf,
    key: PathBuf,
    in_use: Mutex<Contents>,
}

/// The bytes of the certificate's file and of the key's.
type Contents = (Vec<u8>, Vec<u8>);

impl Files {
    pub(crate) fn open(
        certificate: &Path,
        key: &Path,
        now: OffsetDateTime,
    ) -> Result<(Self, Served), Trouble> {
        let files = Self {
            certificate: certificate.to_owned(),
            key: key.to_owned(),
            in_use: Mutex::default(),
        };
        let contents = files.read()?;
        let served = files.join(&contents, now)?;
        *files.lock() = contents;
        files.look_after_key();
        Ok((files, served))
    }

    /// What the files hold, if it is not what is in use. Contents are compared
    /// rather than times: those who renew certificates often exchange links.
    pub(crate) fn changed(&self, now: OffsetDateTime) -> Result<Option<Served>, Trouble> {
        let contents = self.read()?;
        let mut in_use = self.lock();
        if *in_use == contents {
            return Ok(None);
        }
        let served = self.join(&contents, now)?;
        *in_use = contents;
        Ok(Some(served))
    }

    /// Complains where the certificate in use, which ends then, is about to run
    /// out or has.
    pub(crate) fn lasts(&self, ends: OffsetDateTime, now: OffsetDateTime) -> Result<(), Trouble> {
        if ends - now > NOTICE {
            return Ok(());
        }
        Err(Trouble::RunsOut {
            file: self.certificate.clone(),
            on: ends.date(),
        })
    }

    /// Says so where anybody on this computer can read the key. Who may is for
    /// those who made the file to decide: a group often has to.
    fn look_after_key(&self) {
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt as _;
            let mode = fs::metadata(&self.key).map(|about| about.permissions().mode());
            if mode.is_ok_and(|mode| mode & 0o007 != 0) {
                let key = self.key.display();
                tracing::warn!("every account can use the key in {key}. Run: chmod 600 {key}");
            }
        }
    }

    fn lock(&self) -> MutexGuard<'_, Contents> {
        self.in_use.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn read(&self) -> Result<Contents, Trouble> {
        let read = |file: &Path| {
            fs::read(file).map_err(|why| Trouble::Reading {
                file: file.to_owned(),
                why,
            })
        };
        Ok((read(&self.certificate)?, read(&self.key)?))
    }

    fn join(&self, (certificate, key): &Contents, now: OffsetDateTime) -> Result<Served, Trouble> {
        let unusable = |file: &Path, why: String| Trouble::Content {
            file: file.to_owned(),
            why,
        };
        let chain: Vec<_> = CertificateDer::pem_slice_iter(certificate)
            .collect::<Result<_, _>>()
            .map_err(|why| unusable(&self.certificate, why.to_string()))?;
        let private = PrivateKeyDer::from_pem_slice(key)
            .map_err(|_| unusable(&self.key, String::from("it holds no private key")))?;
        let served = Served::new(chain, private).map_err(|unfit| match unfit {
            Unfit::Certificate(why) => unusable(&self.certificate, why),
            Unfit::Key(why) => unusable(&self.key, why),
            Unfit::Mismatch => Trouble::Mismatch {
                certificate: self.certificate.clone(),
                key: self.key.clone(),
            },
        })?;
        if served.is_valid(now) {
            Ok(served)
        } else {
            Err(Trouble::Dates {
                file: self.certificate.clone(),
                from: served.begins.date(),
                until: served.ends.date(),
            })
        }
    }
}
