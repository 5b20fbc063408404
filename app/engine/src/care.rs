//! Short customary cautions, shown beside the step that needs them.

use serde::{Deserialize, Serialize};

/// What can hurt.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hazard {
    /// A craft knife.
    Knife,
    /// A rotary cutter.
    RotaryBlade,
    /// A guillotine or a trimmer.
    Trimmer,
    /// Dies, and the machine they are pressed in.
    Die,
    /// A hot glue gun.
    HotGlue,
    /// A heat tool, such as is used for embossing.
    HeatTool,
    /// Buttons, gems, bells, brads and other small parts.
    SmallParts,
    /// Button cells in cards with light or sound.
    ButtonCell,
}

/// A caution. Each defers to the maker of the tool or part and to local rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// A heading.
    pub title: &'static str,
    /// What to do, in a sentence or two.
    pub words: &'static str,
    /// Who has the last word.
    pub defers: &'static str,
    /// Where the custom is written down.
    pub source: &'static str,
}

const TOOL: &str = "The tool maker's instructions and your local rules come first.";
const PART: &str = "The part maker's instructions and your local rules come first.";

impl Hazard {
    /// Every hazard.
    pub const ALL: [Self; 8] = [
        Self::Knife,
        Self::RotaryBlade,
        Self::Trimmer,
        Self::Die,
        Self::HotGlue,
        Self::HeatTool,
        Self::SmallParts,
        Self::ButtonCell,
    ];

    /// The caution for it.
    pub const fn caution(self) -> Caution {
        match self {
            Self::Knife => Caution {
                title: "Sharp blade",
                words: "Cut on a mat against a metal safety ruler, fingers behind the blade, \
                        away from yourself. Change a dull blade, cap the knife whenever you put \
                        it down, and throw blades away in a closed hard box.",
                defers: TOOL,
                source: "art teachers' guidance on cutting tools; school craft-knife rules",
            },
            Self::RotaryBlade => Caution {
                title: "Rotary blade",
                words: "Close the guard after every cut. A rotary blade too dull for paper still \
                        cuts skin.",
                defers: TOOL,
                source: "sewing-trade note on rotary blades",
            },
            Self::Trimmer => Caution {
                title: "Trimmer or guillotine",
                words: "Keep your fingers behind the guard, and lock the arm or blade when you \
                        are not cutting.",
                defers: TOOL,
                source: "common practice, from memory",
            },
            Self::Die => Caution {
                title: "Dies",
                words: "A die cuts fingers as it cuts paper: take it by its sides. Keep fingers, \
                        hair and sleeves away from the plates and rollers of the machine.",
                defers: TOOL,
                source: "common practice, from memory",
            },
            Self::HotGlue => Caution {
                title: "Hot glue",
                words: "Nozzle and glue burn at once. Stand the gun on its feet on a heat-proof \
                        surface, never spread glue with a finger, keep cold water near, and \
                        unplug it before you walk away.",
                defers: TOOL,
                source: "school safety sheets for glue guns",
            },
            Self::HeatTool => Caution {
                title: "Heat tool",
                words: "The nozzle and what it has warmed burn. Work on a heat-proof surface, \
                        keep moving so that paper does not scorch, and let it cool before you \
                        put it away.",
                defers: TOOL,
                source: "common practice, from memory; as for glue guns",
            },
            Self::SmallParts => Caution {
                title: "Small parts",
                words: "Buttons, gems, bells and brads can choke a child under three. Keep them \
                        out of reach, and leave them off a card meant for one.",
                defers: PART,
                source: "16 CFR 1501; EN 71-1",
            },
            Self::ButtonCell => Caution {
                title: "Button cell",
                words: "A swallowed button cell injures within hours: get medical help at once. \
                        Use only a holder that a child cannot open, and keep spare and used \
                        cells locked away.",
                defers: PART,
                source: "common practice, from memory",
            },
        }
    }
}
