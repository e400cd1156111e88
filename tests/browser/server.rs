//! A server on the loopback address that counts who asks.

use std::collections::BTreeSet;
use std::io::{BufRead, BufReader, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use crate::Outcome;

/// The server; it answers until the tests end.
pub(crate) struct Server {
    address: SocketAddr,
    asked: Arc<Mutex<BTreeSet<String>>>,
}

impl Server {
    /// Starts on a free port.
    pub(crate) fn start() -> Outcome<Server> {
        let listener = TcpListener::bind(("127.0.0.1", 0))?;
        let server = Server { address: listener.local_addr()?, asked: Arc::default() };
        let asked = Arc::clone(&server.asked);
        thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let asked = Arc::clone(&asked);
                thread::spawn(move || answer(stream, &asked));
            }
        });
        Ok(server)
    }

    /// Host and port.
    pub(crate) fn address(&self) -> SocketAddr {
        self.address
    }

    /// The paths asked for so far, each once; a connection that sends nothing counts as an empty path.
    pub(crate) fn asked(&self) -> BTreeSet<String> {
        self.asked.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }
}

/// Notes the path, and answers with an empty file that any page may read.
fn answer(mut stream: TcpStream, asked: &Mutex<BTreeSet<String>>) {
    let mut line = String::new();
    // Whatever came before the connection broke still counts.
    let _ = BufReader::new(&stream).read_line(&mut line);
    let path = line.split(' ').nth(1).unwrap_or_default().to_owned();
    asked.lock().unwrap_or_else(PoisonError::into_inner).insert(path);
    let _ = stream.write_all(
        b"HTTP/1.1 200 OK\r\nAccess-Control-Allow-Origin: *\r\nContent-Length: 0\r\nConnection: close\r\n\r\n",
    );
}
