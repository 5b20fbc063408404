use foldwright_engine::length::*;
use foldwright_engine::reading::read;
#[test]
fn dump() {
    let all = std::fs::read_to_string(std::env::var("LISTS").expect("LISTS")).expect("file");
    for list in all.split("\n---\n") {
        let usual = Notation {
            step: Step::Sixteenth,
            decimal: DecimalMark::Point,
        };
        let read = read(list, usual);
        println!("==== assumed {:?}", read.assumed);
        for line in &read.lines {
            println!("| {}", line.text);
            for u in &line.understood {
                println!("    + {:?} {}", &line.text[u.at.clone()], u.words);
            }
            for u in &line.unread {
                println!("    - {:?} {}", &line.text[u.at.clone()], u.why);
            }
            for p in &line.problems {
                println!("    ! {} {} {}", p.what, p.why, p.remedy);
            }
        }
        for p in &read.proposals {
            println!(
                "  {} {} [{}]",
                if p.accepted { "YES" } else { "no " },
                p.relation,
                p.evidence
            );
        }
        if let Some(r) = read.into_recipe(&read.usual()) {
            println!("  check {:?} broken {:?}", r.check(), r.broken());
            let card = foldwright_engine::card::work_out(&r, &Default::default());
            println!(
                "  folds {} finished {} layers {:?}",
                card.folded.is_some(),
                r.notation.size(card.finished.width, card.finished.height),
                r.layers.iter().map(|l| (&l.name, l.on)).collect::<Vec<_>>()
            );
            for p in &card.problems {
                println!("    card {:?} {} ", p.weight, p.what);
            }
        }
    }
}
