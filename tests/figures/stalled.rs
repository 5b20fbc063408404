//! How many connections are held open for those who ask nothing.

use std::io::{BufRead as _, BufReader, ErrorKind, Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use crate::cluster::Folder;
use crate::measure::{Figure, Trouble, Workshop};

const CONNECTIONS: usize = 200;
const AFTER: Duration = Duration::from_secs(30);

/// A server that is stopped however the measuring ends.
struct Server(Child);

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// Those of 200 with half a request that are still open after 30 s.
pub(crate) fn held(workshop: &mut Workshop) -> Result<Vec<Figure>, Trouble> {
    let folder = Folder::new();
    let mut server = Command::new(workshop.server()?)
        .args(["--port", "0", "--data"])
        .arg(folder.0.join("workshops.db"))
        .stdout(Stdio::piped())
        .spawn()
        .map(Server)?;
    let mut line = String::new();
    if let Some(out) = server.0.stdout.take() {
        BufReader::new(out).read_line(&mut line)?;
    }
    let address = line.trim().trim_end_matches('/').rsplit('/').next();
    let address: SocketAddr = address
        .and_then(|address| address.parse().ok())
        .ok_or_else(|| Trouble(format!("the server said {line:?}")))?;
    let open = |_| {
        let mut stream = TcpStream::connect(address)?;
        stream.write_all(b"GET / HTTP/1.1\r\nHost: ")?;
        stream.set_nonblocking(true)?;
        Ok::<_, std::io::Error>(stream)
    };
    let stalled: Vec<_> = (0..CONNECTIONS).map(open).collect::<Result<_, _>>()?;
    std::thread::sleep(AFTER);
    let held = stalled.into_iter().filter_map(|mut stream| {
        let read = stream.read(&mut [0]);
        read.is_err_and(|why| why.kind() == ErrorKind::WouldBlock)
            .then_some(1.0)
    });
    Ok(vec![Figure {
        name: "stalled_connections_held",
        value: held.sum(),
        unit: "",
        target: Some(0.0),
        how: format!(
            "of {CONNECTIONS} connections over which half the head of a request was sent, those \
             still open after {} s",
            AFTER.as_secs()
        ),
    }])
}
