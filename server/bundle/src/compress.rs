//! Compresses files once, so that serving them costs nothing.

use std::thread;

use brotli::enc::BrotliEncoderParams;

use crate::{File, Trouble};

/// Gives every file its compressed form, where that is smaller.
pub(crate) fn all(files: &mut [File]) -> Result<(), Trouble> {
    thread::scope(|scope| {
        let running: Vec<_> = files
            .iter_mut()
            .map(|file| scope.spawn(move || one(file)))
            .collect();
        running.into_iter().try_for_each(|thread| {
            thread
                .join()
                .unwrap_or_else(|_| Err(Trouble::new("A compressor stopped half-way.")))
        })
    })
}

fn one(file: &mut File) -> Result<(), Trouble> {
    let failed =
        |why: std::io::Error| Trouble::new(format!("{} cannot be compressed: {why}", file.path));
    let brotli = brotli(&file.plain).map_err(failed)?;
    let length = file.plain.len();
    file.brotli = Some(brotli).filter(|bytes| bytes.len() < length);
    Ok(())
}

fn brotli(plain: &[u8]) -> std::io::Result<Vec<u8>> {
    let settings = BrotliEncoderParams {
        quality: 11,
        // The largest window browsers accept.
        lgwin: 24,
        size_hint: plain.len(),
        ..BrotliEncoderParams::default()
    };
    let mut out = Vec::new();
    brotli::BrotliCompress(&mut &plain[..], &mut out, &settings)?;
    Ok(out)
}
