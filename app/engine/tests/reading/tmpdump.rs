use super::{inches, metric};
#[test]
fn dump() {
    let both = std::env::var("LISTS").expect("a file");
    let text = std::fs::read_to_string(both).expect("a file");
    for list in text.split("\n---\n") {
        let (unit, list) = list.split_once('\n').expect("unit");
        let read = if unit.trim() == "in" {
            inches(list)
        } else {
            metric(list)
        };
        println!("=====");
        if let Some(a) = &read.assumed {
            println!("assumed: {a}");
        }
        for line in &read.lines {
            println!("> {}", line.text);
            println!(
                "    read: {}",
                line.understood
                    .iter()
                    .map(|u| u.words.clone())
                    .collect::<Vec<_>>()
                    .join(" · ")
            );
            for u in &line.unread {
                println!("    unread: {:?} {}", line.text.get(u.at.clone()), u.why);
            }
            for r in &line.remarks {
                println!("    remark: {r}");
            }
            for p in &line.problems {
                println!("    PROBLEM: {} {} {}", p.what, p.why, p.remedy);
            }
        }
        for (at, f) in read.foldings.iter().enumerate() {
            println!(
                "  fold {at}{}: {} | {} | {:?}",
                if at == read.folded { "*" } else { "" },
                f.words,
                f.why,
                f.key
            );
        }
        for p in &read.proposals {
            println!(
                "  [{}] {} | {}",
                if p.accepted { "x" } else { " " },
                p.relation,
                p.evidence
            );
        }
        if let Some(r) = read.into_recipe(&read.usual()) {
            assert_eq!(r.check(), []);
            assert_eq!(r.broken(), []);
            println!("  envelope {:?} copies {}", r.posting.envelope, r.copies);
            let card =
                foldwright_engine::card::work_out(&r, &foldwright_engine::card::Tools::default());
            for p in &card.problems {
                println!("  card {:?}: {} {}", p.weight, p.what, p.why);
            }
        }
    }
}
