//! What can hurt at the table, to be said beside the step that needs it.

use serde::{Deserialize, Serialize};

/// What can hurt. Beside each stands where the customary care is written down.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hazard {
    /// A craft knife (art teachers' guidance on cutting tools; school
    /// craft-knife rules).
    Knife,
    /// A rotary cutter (sewing-trade note on rotary blades).
    RotaryBlade,
    /// A trimmer, whose blade runs in a rail (common practice, from memory).
    Trimmer,
    /// A guillotine, whose blade comes down on an arm (common practice, from
    /// memory).
    Guillotine,
    /// Scissors (common practice, from memory).
    Scissors,
    /// A corner punch (common practice, from memory).
    CornerPunch,
    /// Dies, and the machine they are pressed in (common practice, from memory).
    Die,
    /// A hot glue gun (school safety sheets for glue guns).
    HotGlue,
    /// Spray glue, and glue with solvents (common practice, from memory).
    SprayGlue,
    /// A heat tool, such as is used for embossing (common practice, from memory;
    /// as for glue guns).
    HeatTool,
    /// Buttons, gems, bells, brads and other small parts (16 CFR 1501; EN 71-1).
    SmallParts,
    /// Button cells in cards with light or sound (common practice, from memory).
    ButtonCell,
}

impl Hazard {
    /// Every hazard.
    pub const ALL: [Self; 12] = [
        Self::Knife,
        Self::RotaryBlade,
        Self::Trimmer,
        Self::Guillotine,
        Self::Scissors,
        Self::CornerPunch,
        Self::Die,
        Self::HotGlue,
        Self::SprayGlue,
        Self::HeatTool,
        Self::SmallParts,
        Self::ButtonCell,
    ];
}
