//! Lays flat what a reference has photographed: for each `N.txt` in a folder (width and
//! height of the picture in pixels, the sheet's sides, its four corners) and its pixels
//! in `N.rgba`, writes the flat sheet to `N.flat` behind its width and height, and what
//! it tells to standard output.

use std::path::Path;
use std::{env, fs};

use foldwright_photo::{Corners, Flattening, Pixels, tell};

type Failed = Box<dyn std::error::Error>;

fn main() -> Result<(), Failed> {
    let folder = env::args().nth(1).ok_or("which folder?")?;
    let mut cases: Vec<_> = fs::read_dir(&folder)?.collect::<Result<_, _>>()?;
    cases.sort_by_key(fs::DirEntry::path);
    for case in cases {
        let path = case.path();
        if path.extension().is_some_and(|it| it == "txt") {
            flatten(&path)?;
        }
    }
    Ok(())
}

fn flatten(case: &Path) -> Result<(), Failed> {
    let text = fs::read_to_string(case)?;
    let numbers = text.split_whitespace().map(str::parse::<f64>);
    let numbers = numbers.collect::<Result<Vec<_>, _>>()?;
    let [width, height, across, down, corners @ ..] = &numbers[..] else {
        return Err("too few numbers".into());
    };
    let corners: Vec<[f64; 2]> = corners.chunks_exact(2).map(|at| [at[0], at[1]]).collect();
    let corners = Corners(corners.try_into().map_err(|_| "four corners")?);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "sides of small pictures"
    )]
    let [width, height] = [*width as u32, *height as u32];
    let bytes = fs::read(case.with_extension("rgba"))?;
    let photo = Pixels::new(width, height, bytes).ok_or("not as many bytes as pixels")?;
    let flat = Flattening::new(&corners, [*across, *down]).map_err(|why| format!("{why:?}"))?;
    let [width, height] = flat.size();
    let rows = flat.rows(&photo, 0..height);
    let sheet = Pixels::new(width, height, rows).ok_or("not as many bytes as pixels")?;
    let mut out = Vec::new();
    out.extend(width.to_le_bytes());
    out.extend(height.to_le_bytes());
    out.extend(sheet.bytes());
    fs::write(case.with_extension("flat"), out)?;
    let told = tell(&sheet);
    let name = case.file_stem().unwrap_or_default().to_string_lossy();
    println!("{name} {} {:?}", told.colour, told.print);
    Ok(())
}
