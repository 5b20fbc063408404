//! The printed papers of the workshop, and how their prints run.

mod de;
mod en;

use foldwright_engine::paper::{Print, PrintedPaper};

use crate::Language;

area! {
    /// The printed papers of the workshop, and how their prints run.
    MotifTexts {
        lighthouses,
        boats,
        gulls,
        anchors,
        fish,
        sail_stripes,
        ropes,
        waves,
        planks,
        nets,
        bookplates,
        wind_stars,
    }
    fills {
        one_way(paper: &str),
        both_ways(paper: &str),
        no_direction(paper: &str),
        on_sheet(paper: &str),
    }
}

static ENGLISH: MotifTexts = en::TEXTS;
static GERMAN: MotifTexts = de::TEXTS;

const _: [[&str; MotifTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];

impl Language {
    /// What it says of the printed papers of the workshop; no part of its
    /// [`Tongue`](crate::Tongue), since one page says it.
    pub const fn motifs(self) -> &'static MotifTexts {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}

impl MotifTexts {
    /// A paper by its name, with how a side of it says that its print runs.
    pub fn paper(&self, paper: PrintedPaper, print: Print) -> String {
        let name = self.name(paper);
        match print {
            Print::Plain => name.to_owned(),
            Print::OneWay => self.one_way(name),
            Print::TwoWay => self.both_ways(name),
            Print::AllOver => self.no_direction(name),
        }
    }

    /// A sheet of 12 × 12 in that is printed with it, its back white.
    pub fn sheet(&self, paper: PrintedPaper) -> String {
        self.on_sheet(self.name(paper))
    }

    const fn name(&self, paper: PrintedPaper) -> &'static str {
        match paper {
            PrintedPaper::Lighthouses => self.lighthouses,
            PrintedPaper::Boats => self.boats,
            PrintedPaper::Gulls => self.gulls,
            PrintedPaper::Anchors => self.anchors,
            PrintedPaper::Fish => self.fish,
            PrintedPaper::SailStripes => self.sail_stripes,
            PrintedPaper::Ropes => self.ropes,
            PrintedPaper::Waves => self.waves,
            PrintedPaper::Planks => self.planks,
            PrintedPaper::Nets => self.nets,
            PrintedPaper::Bookplates => self.bookplates,
            PrintedPaper::WindStars => self.wind_stars,
        }
    }
}
