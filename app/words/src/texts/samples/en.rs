//! The cards of a harbour library's paper workshop, in English.

use super::SampleTexts;

pub(in crate::texts) const TEXTS: SampleTexts = SampleTexts {
    from_workshop: "From the harbour library’s workshop",
    six_finished: "Six finished cards. Open one and change it, or make it as it is.",
    put_away: "Put these away",
    are_away: "The finished cards are put away.",
    gate: "Lighthouse",
    gate_about: "For the reading room’s birthday: two leaves part before the light.",
    z: "Ferry pass",
    z_about: "Folds out like a timetable, with a stripe for each crossing.",
    stairs: "Quay stairs",
    stairs_about: "Three treads rise as it opens, for people moving to the harbour.",
    tent: "Reserved",
    tent_about: "Stands on a table and says whose evening it is.",
    window: "Porthole",
    window_about: "The shore is seen through the front.",
    v_fold: "Gull",
    v_fold_about: "A wing lifts off the page between two covers.",
};
