//! What the person who starts the server is told.

use std::io::{self, Write};
use std::net::{Ipv4Addr, SocketAddr};

use crate::doors::Doors;

/// Prints the address to open. Nobody may be reading, which is no trouble.
pub(crate) fn announce(doors: &Doors, release: &str, code: Option<&str>) {
    tracing::info!(address = %doors.bound(), release, "listening");
    let mut out = io::stdout().lock();
    let _ = tell(&mut out, doors, code).and_then(|()| out.flush());
}

fn tell(out: &mut impl Write, doors: &Doors, code: Option<&str>) -> io::Result<()> {
    let (origin, bound) = (doors.origin(), doors.bound());
    if origin.is_secure() {
        writeln!(out, "Foldwright is open at {origin}/")?;
    } else {
        let here = if bound.ip().is_unspecified() {
            SocketAddr::from((Ipv4Addr::LOCALHOST, bound.port()))
        } else {
            bound
        };
        writeln!(out, "Foldwright is open at http://{here}/")?;
        if !bound.ip().is_loopback() {
            writeln!(
                out,
                "\n\
                 !! Other devices reach it at {origin}/ over plain HTTP only.\n\
                 !! Anyone on the network can read along, and phones will not let it work\n\
                 !! offline, be installed or keep the screen awake.\n\
                 !! HTTPS at home: --tls own. With a certificate: --tls CERT,KEY.\n\
                 !! If a proxy in front of it does HTTPS: --address https://...\n"
            )?;
        }
    }
    if let Some(trust) = doors.trust() {
        writeln!(
            out,
            "Each device has to trust it once: open {}/ there and follow the steps.",
            trust.page
        )?;
        writeln!(out, "The fingerprint it shows has to be")?;
        for row in trust.fingerprint.lines() {
            writeln!(out, "  {row}")?;
        }
    }
    if let Some(code) = code {
        writeln!(
            out,
            "Nobody shares recipes over it yet: the first device comes in with the code {code}."
        )?;
    }
    writeln!(out, "Press Ctrl+C to stop.")
}
