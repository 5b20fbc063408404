//! What can hurt at the table, in English.

use foldwright_engine::care::Hazard;

use super::Caution;

const TOOL: &str = "The tool maker's instructions and your local rules come first.";
const GLUE: &str = "The glue maker's instructions and your local rules come first.";
const PART: &str = "The part maker's instructions and your local rules come first.";

pub(crate) const fn told(hazard: Hazard) -> Caution {
    match hazard {
        Hazard::Knife => Caution {
            title: "Sharp blade",
            words: "Cut on a mat along a metal safety ruler, away from yourself, fingers behind \
                    the blade. Change a dull blade, and cap the knife whenever you put it down. \
                    Throw blades away in a closed hard box. Children only with an adult beside \
                    them.",
            defers: TOOL,
        },
        Hazard::RotaryBlade => Caution {
            title: "Rotary blade",
            words: "Close the guard after every cut. A rotary blade too dull for paper still cuts \
                    skin. Children only with an adult beside them.",
            defers: TOOL,
        },
        Hazard::Trimmer => Caution {
            title: "Trimmer",
            words: "Hold the paper well away from the rail, and never run a finger along the \
                    blade. Park and cover the blade when you are not cutting. Children only with \
                    an adult beside them.",
            defers: TOOL,
        },
        Hazard::Guillotine => Caution {
            title: "Guillotine",
            words: "Keep your fingers behind the guard, and watch the whole edge as the arm comes \
                    down. Lock the arm down when you are not cutting. Children only with an adult \
                    beside them.",
            defers: TOOL,
        },
        Hazard::Scissors => Caution {
            title: "Scissors",
            words: "Turn the paper, not the scissors, and keep the other hand behind the blades. \
                    Close them before you put them down or pass them on, handles first.",
            defers: TOOL,
        },
        Hazard::CornerPunch => Caution {
            title: "Corner punch",
            words: "Put the punch on the table and press with the flat hand, fingers clear of its \
                    mouth. Free a jammed corner with paper, not with a finger.",
            defers: TOOL,
        },
        Hazard::Die => Caution {
            title: "Dies",
            words: "A die cuts fingers as it cuts paper: hold it by its sides. Keep fingers, hair \
                    and sleeves away from the plates and rollers of the machine.",
            defers: TOOL,
        },
        Hazard::HotGlue => Caution {
            title: "Hot glue",
            words: "Nozzle and glue burn skin at a touch. Stand the gun on its feet on a \
                    heat-proof surface, and never spread glue with a finger. Keep cold water \
                    near, and unplug the gun before you walk away. Children only with an adult \
                    beside them.",
            defers: TOOL,
        },
        Hazard::SprayGlue => Caution {
            title: "Spray and solvent glue",
            words: "Open a window, keep away from flames, and follow the label.",
            defers: GLUE,
        },
        Hazard::HeatTool => Caution {
            title: "Heat tool",
            words: "The nozzle, and anything it has heated, can burn you. Work on a heat-proof \
                    surface, air the room, and keep moving so that paper does not scorch. Let the \
                    tool cool before you put it away. Children only with an adult beside them.",
            defers: TOOL,
        },
        Hazard::SmallParts => Caution {
            title: "Small parts",
            words: "Buttons, gems, bells and brads can choke a child under three. Keep them out \
                    of reach. Leave small parts off a card for a child that young.",
            defers: PART,
        },
        Hazard::ButtonCell => Caution {
            title: "Button cell",
            words: "A swallowed button cell injures within hours: get medical help at once. Use \
                    only a holder that a child cannot open, and keep spare and used cells locked \
                    away.",
            defers: PART,
        },
    }
}
