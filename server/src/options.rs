//! What can be set on the command line.

use std::net::{IpAddr, Ipv4Addr};

use clap::{Parser, ValueEnum};

/// Serves Foldwright, the folded-card workshop, to the browsers that open its
/// address.
#[derive(Clone, Debug, Parser)]
#[command(name = "foldwright", version)]
pub struct Options {
    /// Port to listen on; 0 takes any free one
    #[arg(long, default_value_t = 4747)]
    pub port: u16,

    /// Address to listen on: 127.0.0.1 is open to this computer only, 0.0.0.0
    /// to every device that can reach it
    #[arg(long, value_name = "ADDRESS", default_value_t = IpAddr::V4(Ipv4Addr::LOCALHOST))]
    pub bind: IpAddr,

    /// How much to report while running
    #[arg(long, value_name = "LEVEL", default_value = "warn")]
    pub log: Log,
}

/// How much the server reports.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Log {
    /// What failed
    Error,
    /// What failed and what looks wrong
    Warn,
    /// Starting and stopping too
    Info,
    /// Every request too
    Debug,
}

impl From<Log> for tracing::Level {
    fn from(log: Log) -> Self {
        match log {
            Log::Error => Self::ERROR,
            Log::Warn => Self::WARN,
            Log::Info => Self::INFO,
            Log::Debug => Self::DEBUG,
        }
    }
}
