//! A connection, and the port they come in by.

use std::io;
use std::net::SocketAddr;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll, ready};

use axum::serve::Listener;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::OwnedSemaphorePermit;
use tokio::time::{Sleep, sleep};
use tokio_util::sync::WaitForCancellationFutureOwned;

use crate::TO_LISTEN;
use crate::room::{Peer, Place, Room};

/// A port by which as many come in as there is room for.
#[derive(Debug)]
pub struct Bounded {
    tcp: TcpListener,
    room: Room,
    /// Accepted, and without room yet.
    arrived: Option<(TcpStream, SocketAddr)>,
}

impl Bounded {
    /// Takes those in who come to `tcp`.
    pub fn new(tcp: TcpListener, room: Room) -> Self {
        Self {
            tcp,
            room,
            arrived: None,
        }
    }
}

impl Listener for Bounded {
    type Io = Guest;
    type Addr = Peer;

    async fn accept(&mut self) -> (Guest, Peer) {
        loop {
            if self.arrived.is_none() {
                self.arrived = Some(Listener::accept(&mut self.tcp).await);
            }
            let permit = self.room.enter().await;
            if let (Some((tcp, address)), Some(permit)) = (self.arrived.take(), permit) {
                // Small messages leave without waiting for more to go with
                // them. Where it cannot be set, all works, only later.
                let _ = tcp.set_nodelay(true);
                let place = Place::in_room(self.room.clone());
                place.wait();
                let guest = Guest {
                    tcp,
                    way: Box::pin(place.way.clone().cancelled_owned()),
                    stalled: None,
                    place: Arc::clone(&place),
                    _permit: permit,
                };
                return (guest, Peer { address, place });
            }
        }
    }

    fn local_addr(&self) -> io::Result<Peer> {
        Ok(Peer {
            address: self.tcp.local_addr()?,
            place: Place::in_room(self.room.clone()),
        })
    }
}

/// A connection that ends where it is asked to give way while it waits, and
/// where the other side takes in nothing any more.
#[derive(Debug)]
pub struct Guest {
    tcp: TcpStream,
    way: Pin<Box<WaitForCancellationFutureOwned>>,
    stalled: Option<Pin<Box<Sleep>>>,
    place: Arc<Place>,
    _permit: OwnedSemaphorePermit,
}

impl Guest {
    /// The first byte that comes, which is left to be read; none where the
    /// other side is gone.
    pub async fn first(&self) -> io::Result<Option<u8>> {
        let mut first = [0];
        let read = tokio::select! {
            read = self.tcp.peek(&mut first) => read?,
            () = self.place.way.cancelled() => return Err(gave_way()),
        };
        Ok((read > 0).then_some(first[0]))
    }

    /// Lets something be written, for as long as that gets on.
    fn writing<T>(
        &mut self,
        context: &mut Context<'_>,
        write: impl FnOnce(Pin<&mut TcpStream>, &mut Context<'_>) -> Poll<io::Result<T>>,
    ) -> Poll<io::Result<T>> {
        if let Poll::Ready(written) = write(Pin::new(&mut self.tcp), context) {
            self.stalled = None;
            return Poll::Ready(written);
        }
        let stalled = self
            .stalled
            .get_or_insert_with(|| Box::pin(sleep(TO_LISTEN)));
        ready!(stalled.as_mut().poll(context));
        self.stalled = None;
        let why = "the other side takes in nothing any more";
        Poll::Ready(Err(io::Error::new(io::ErrorKind::TimedOut, why)))
    }
}

impl Drop for Guest {
    fn drop(&mut self) {
        self.place.leave_queue();
    }
}

impl AsyncRead for Guest {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        into: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        if self.place.way.is_cancelled() {
            return Poll::Ready(Err(gave_way()));
        }
        // So that it is woken when it has to give way.
        let _ = self.way.as_mut().poll(context);
        Pin::new(&mut self.tcp).poll_read(context, into)
    }
}

impl AsyncWrite for Guest {
    fn poll_write(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        self.writing(context, |tcp, context| tcp.poll_write(context, bytes))
    }

    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[io::IoSlice<'_>],
    ) -> Poll<io::Result<usize>> {
        self.writing(context, |tcp, context| {
            tcp.poll_write_vectored(context, bytes)
        })
    }

    fn is_write_vectored(&self) -> bool {
        self.tcp.is_write_vectored()
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.tcp).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.tcp).poll_shutdown(context)
    }
}

fn gave_way() -> io::Error {
    io::Error::new(
        io::ErrorKind::TimedOut,
        "others came who have something to ask",
    )
}
