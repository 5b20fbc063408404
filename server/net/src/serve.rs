//! Answers those who come in.

use std::convert::Infallible;
use std::pin::{Pin, pin};
use std::sync::Arc;
use std::task::{Context, Poll};
use std::time::Duration;

use axum::Router;
use axum::body::{Body, HttpBody};
use axum::extract::ConnectInfo;
use axum::http::{Request, Response, StatusCode};
use axum::serve::Listener;
use hyper::body::{Frame, Incoming, SizeHint};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::sync::watch;
use tokio::time::{Sleep, sleep};
use tower_service::Service as _;

use crate::behind::Behind;
use crate::room::{Busy, Peer};
use crate::{IN_A_SECOND, LONGEST_TO_ASK, TO_ASK};

/// The most bytes of a connection that are held at once, and so of the head of
/// a request. Our own bound: browsers send a few thousand.
const AT_ONCE: usize = 64 * 1024;

/// Lets `app` answer whoever comes in, until `stopped` and then until every
/// answer under way is given. `app` is told as `ConnectInfo<IpAddr>` who asks.
pub async fn serve<L>(
    mut listener: L,
    app: Router,
    behind: Arc<Behind>,
    stopped: impl Future<Output = ()>,
) where
    L: Listener<Addr = Peer>,
{
    let mut http = http1::Builder::new();
    http.timer(TokioTimer::new())
        .header_read_timeout(TO_ASK)
        .max_buf_size(AT_ONCE);
    // Open for as long as a connection is.
    let (stop, open) = watch::channel(());
    let mut stopped = pin!(stopped);
    loop {
        let (io, peer) = tokio::select! {
            came = listener.accept() => came,
            () = &mut stopped => break,
        };
        let (app, behind) = (app.clone(), Arc::clone(&behind));
        let answers = service_fn(move |request| {
            answer(app.clone(), Arc::clone(&behind), peer.clone(), request)
        });
        let connection = http.serve_connection(TokioIo::new(io), answers);
        let connection = connection.with_upgrades();
        let mut open = open.clone();
        tokio::spawn(async move {
            let mut connection = pin!(connection);
            let ended = tokio::select! {
                ended = &mut connection => ended,
                _ = open.changed() => {
                    connection.as_mut().graceful_shutdown();
                    connection.await
                }
            };
            if let Err(why) = ended {
                tracing::debug!(%why, "a connection ended");
            }
        });
    }
    drop((listener, open));
    // Nobody may be connected.
    let _ = stop.send(());
    stop.closed().await;
}

async fn answer(
    mut app: Router,
    behind: Arc<Behind>,
    peer: Peer,
    request: Request<Incoming>,
) -> Result<Response<Body>, Infallible> {
    let busy = Busy::with(&peer);
    let mut request = request.map(|body| {
        let longer = Duration::from_secs(body.size_hint().lower() / IN_A_SECOND);
        let late = TO_ASK.saturating_add(longer).min(LONGEST_TO_ASK);
        Body::new(Arriving {
            body,
            late: Box::pin(sleep(late)),
        })
    });
    let asker = behind.asker(peer.address, request.headers());
    request.extensions_mut().insert(ConnectInfo(asker));
    let answer = app.call(request).await?;
    if answer.status() == StatusCode::SWITCHING_PROTOCOLS {
        busy.for_good();
        return Ok(answer);
    }
    Ok(answer.map(|body| Body::new(Leaving { body, _busy: busy })))
}

/// What is asked, while it arrives in time.
struct Arriving {
    body: Incoming,
    late: Pin<Box<Sleep>>,
}

impl HttpBody for Arriving {
    type Data = <Incoming as HttpBody>::Data;
    type Error = axum::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Self::Data>, axum::Error>>> {
        if self.late.as_mut().poll(context).is_ready() {
            return Poll::Ready(Some(Err(axum::Error::new("it did not arrive in time"))));
        }
        let frame = Pin::new(&mut self.body).poll_frame(context);
        frame.map(|frame| frame.map(|frame| frame.map_err(axum::Error::new)))
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        self.body.size_hint()
    }
}

/// An answer: until it is gone its connection is in use.
struct Leaving {
    body: Body,
    _busy: Busy,
}

impl HttpBody for Leaving {
    type Data = <Body as HttpBody>::Data;
    type Error = <Body as HttpBody>::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Self::Data>, Self::Error>>> {
        Pin::new(&mut self.body).poll_frame(context)
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        self.body.size_hint()
    }
}
