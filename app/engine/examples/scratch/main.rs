use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::recipe::*;
use foldwright_engine::length::*;
fn main() {
    let inches = Notation { step: Step::Sixteenth, decimal: DecimalMark::Point };
    for starter in starters() {
        let recipe = starter.recipe_in(inches);
        let card = work_out(&recipe, &Tools::default());
        let states = card.folded.as_ref().map(|f| f.states.iter().map(|s| s.opened.as_ref().map(|o| (o.line.0, o.hinges.clone(), o.towards_front, o.together))).collect::<Vec<_>>());
        println!("{} {:?}", starter.id, states);
        for (place, panel) in recipe.base.panels.iter().enumerate() {
            for side in [Side::A, Side::B] {
                let mut with = recipe.clone();
                let Ok(_) = with.add_piece(Face { panel: panel.id, side }) else { println!("  {place} {side:?} refused"); continue };
                let card2 = work_out(&with, &Tools::default());
                let bad: Vec<_> = card2.problems.iter().filter(|p| p.weight > foldwright_engine::problem::Weight::Note).map(|p| format!("{} {}", p.what, p.why)).collect();
                if card2.folded.is_none() || !bad.is_empty() { println!("  {place} {} {side:?} folded {} whole {} {bad:?}", panel.name, card2.folded.is_some(), card2.whole.is_some()); }
            }
        }
    }
    for n in [60usize, 120, 240, 400] {
        let mut recipe = starters().iter().find(|s| s.id == "accordion").unwrap().recipe_in(inches);
        while recipe.base.panels.len() < n { let last = recipe.base.panels.len()-1; recipe.add_panel(None, last, None).unwrap(); }
        let clock = std::time::Instant::now();
        let laid = foldwright_engine::laid::lay_out(&recipe);
        let f = foldwright_engine::fold::fold(&recipe, &laid);
        println!("{n} fold {:?} {:?}", clock.elapsed(), f.map(|f| f.states.len()).map_err(|e| format!("{e:?}")));
        if n <= 120 { let clock = std::time::Instant::now(); let _ = work_out(&recipe, &Tools::default()); println!("all {:?}", clock.elapsed()); }
    }
}
