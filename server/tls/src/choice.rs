//! Where the certificate comes from, as the command line says it.

use std::path::PathBuf;
use std::str::FromStr;

/// Where the certificate comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Choice {
    /// An authority made on this machine signs it.
    Own,
    /// It is in files, in PEM form.
    Files {
        /// The certificate, followed by those that lead to its authority.
        certificate: PathBuf,
        /// Its private key.
        key: PathBuf,
    },
}

impl FromStr for Choice {
    type Err = String;

    /// Reads `own` or `CERT,KEY`.
    fn from_str(text: &str) -> Result<Self, String> {
        if text == "own" {
            return Ok(Self::Own);
        }
        match text.split(',').collect::<Vec<_>>()[..] {
            [certificate, key] if !certificate.is_empty() && !key.is_empty() => Ok(Self::Files {
                certificate: certificate.into(),
                key: key.into(),
            }),
            _ => Err(String::from(
                "say own, or name the file of a certificate and that of its key with a comma \
                 between, as in: --tls cert.pem,key.pem",
            )),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Choice;

    #[test]
    fn own_or_two_files() {
        assert_eq!("own".parse(), Ok(Choice::Own));
        assert_eq!(
            "a b/cert.pem,key.pem".parse(),
            Ok(Choice::Files {
                certificate: "a b/cert.pem".into(),
                key: "key.pem".into()
            })
        );
    }

    #[test]
    fn anything_else_is_explained() {
        for text in ["", "Own", "cert.pem", "cert.pem,", ",key.pem", "a,b,c"] {
            let why = text.parse::<Choice>().expect_err(text);
            assert!(why.contains("--tls cert.pem,key.pem"), "{text}: {why}");
        }
    }
}
