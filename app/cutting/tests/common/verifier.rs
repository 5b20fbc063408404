//! Looks at finished layouts with no code of the planner.
//!
//! Whether edge-to-edge cuts can make a layout is decided from the places of its
//! pieces alone: some line must part them without touching one, and so must it be
//! in both halves. Taking any such line is right, since what is left of a layout
//! that can be cut can be cut.

use std::collections::BTreeMap;

use foldwright_cutting::{Becomes, Edge, Job, Lie, Plan, Rect};

/// A rectangle as x, y, width, height.
pub(crate) type Placed = [i64; 4];

/// Whether edge-to-edge cuts that take `kerf` part all of these.
pub(crate) fn separable(placed: &[Placed], kerf: i64) -> bool {
    if placed.len() <= 1 {
        return true;
    }
    for axis in [0, 1] {
        for cut in placed.iter().map(|it| it[axis] + it[axis + 2]) {
            let near: Vec<Placed> = of(placed, |it| it[axis] + it[axis + 2] <= cut);
            let far: Vec<Placed> = of(placed, |it| it[axis] >= cut + kerf);
            if !near.is_empty() && !far.is_empty() && near.len() + far.len() == placed.len() {
                return separable(&near, kerf) && separable(&far, kerf);
            }
        }
    }
    false
}

fn of(placed: &[Placed], which: impl Fn(&&Placed) -> bool) -> Vec<Placed> {
    placed.iter().filter(which).copied().collect()
}

/// What is wrong with pieces on a sheet: beyond it, on each other, not separable.
pub(crate) fn faults(sheet: (i64, i64), margin: i64, placed: &[Placed], kerf: i64) -> Vec<String> {
    let mut faults = Vec::new();
    for [x, y, w, h] in placed {
        if *x < margin || *y < margin || x + w > sheet.0 - margin || y + h > sheet.1 - margin {
            faults.push(format!("{w}x{h} at {x},{y} leaves the sheet"));
        }
    }
    for (at, [x, y, w, h]) in placed.iter().enumerate() {
        for [ox, oy, ow, oh] in &placed[at + 1..] {
            if x < &(ox + ow) && ox < &(x + w) && y < &(oy + oh) && oy < &(y + h) {
                faults.push(format!("{w}x{h} at {x},{y} lies on {ow}x{oh} at {ox},{oy}"));
            }
        }
    }
    if !separable(placed, kerf) {
        faults.push(String::from("edge-to-edge cuts can't make it"));
    }
    faults
}

fn placed(rect: Rect) -> Placed {
    [
        rect.x,
        rect.y,
        rect.size.width.get(),
        rect.size.height.get(),
    ]
    .map(i64::from)
}

/// Everything that is wrong with a plan for a job, its sequence of cuts included.
pub(crate) fn wrong(job: &Job, plan: &Plan) -> Vec<String> {
    let mut wrong = Vec::new();
    let mut given = vec![0_u64; job.pieces().len()];
    let mut used = vec![0_u64; job.stocks().len()];
    let mut cost = 0;
    let kerf = i64::from(job.trimmer().kerf);
    for batch in plan.batches() {
        let stock = job.stocks()[batch.stock];
        let times = u64::from(batch.sheets.get());
        used[batch.stock] += times;
        cost += times * u64::from(stock.cost);
        let mut rects = Vec::new();
        for (piece, turned, place) in batch.layout.pieces() {
            given[piece] += times;
            rects.push(placed(place));
            let kind = &job.pieces()[piece];
            let Some(source) = kind.sources.iter().find(|it| it.stock == batch.stock) else {
                wrong.push(format!(
                    "piece {piece} may not come from stock {}",
                    batch.stock
                ));
                continue;
            };
            let (w, h) = (kind.size.width, kind.size.height);
            let (w, h) = if turned { (h, w) } else { (w, h) };
            if (place.size.width, place.size.height) != (w, h) {
                wrong.push(format!("piece {piece} is cut {:?}", place.size));
            }
            let allowed = match source.lie {
                Lie::Upright => !turned,
                Lie::Turned => turned,
                Lie::Either => true,
            };
            if !allowed {
                wrong.push(format!("piece {piece} lies as it may not"));
            }
            if let Some(area) = source.area {
                let ([x, y, w, h], [ax, ay, aw, ah]) = (placed(place), placed(area));
                if x < ax || y < ay || x + w > ax + aw || y + h > ay + ah {
                    wrong.push(format!("piece {piece} comes from outside its part"));
                }
            }
        }
        let size = (
            stock.size.width.get().into(),
            stock.size.height.get().into(),
        );
        wrong.extend(faults(size, stock.margin.into(), &rects, kerf));
    }
    for (at, (kind, given)) in job.pieces().iter().zip(given).enumerate() {
        let promised = u64::from(kind.count.get() - plan.missing()[at]);
        if given != promised {
            wrong.push(format!("piece {at} is cut {given} times, not {promised}"));
        }
    }
    for (at, (stock, used)) in job.stocks().iter().zip(used).enumerate() {
        if stock.supply.is_some_and(|supply| used > u64::from(supply)) {
            wrong.push(format!("stock {at} is used {used} times"));
        }
    }
    if cost != plan.cost() {
        wrong.push(format!("it costs {cost}, not {}", plan.cost()));
    }
    wrong.extend(replayed(job, plan));
    wrong
}

/// Cuts as the sequence says, and tells what doesn't come out.
fn replayed(job: &Job, plan: &Plan) -> Vec<String> {
    let mut wrong = Vec::new();
    let kerf = i64::from(job.trimmer().kerf);
    // What lies on the table, by batch and number of the part.
    let mut table: BTreeMap<(usize, usize), Placed> = BTreeMap::new();
    for (at, batch) in plan.batches().iter().enumerate() {
        let size = job.stocks()[batch.stock].size;
        let sheet = [
            0,
            0,
            i64::from(size.width.get()),
            i64::from(size.height.get()),
        ];
        table.insert((at, 0), sheet);
    }
    let (mut cuts, mut fence_before) = (0, None);
    for setting in plan.sequence().settings() {
        let fence = i64::from(setting.fence.get());
        if fence_before == Some(fence) {
            wrong.push(format!("the fence is set to {fence} twice running"));
        }
        fence_before = Some(fence);
        if !job.trimmer().holds(setting.fence.get()) {
            wrong.push(format!("the trimmer doesn't hold {fence}"));
        }
        for stroke in &setting.strokes {
            cuts += u64::from(stroke.times);
            let stack = job.trimmer().stack.get();
            if stroke.copies() > stroke.times * stack || stroke.times == 0 {
                wrong.push(format!("{} at once", stroke.copies() / stroke.times.max(1)));
            }
            let mut sizes = Vec::new();
            for parts in &stroke.parts {
                let batch = &plan.batches()[parts.batch];
                if parts.copies != batch.sheets.get() {
                    wrong.push(format!("{} of {} are cut", parts.copies, batch.sheets));
                }
                let Some([x, y, w, h]) = table.remove(&(parts.batch, parts.part)) else {
                    wrong.push(format!("part {} is not there", parts.part));
                    continue;
                };
                let (side, across) = match parts.edge {
                    Edge::Left | Edge::Right => (w, h),
                    Edge::Near | Edge::Far => (h, w),
                };
                sizes.push((side, across));
                if fence >= side {
                    wrong.push(format!("{side} is cut at {fence}"));
                }
                let rest = (side - fence - kerf).max(0);
                let (first, second) = match parts.edge {
                    Edge::Left => ([x, y, fence, h], [x + w - rest, y, rest, h]),
                    Edge::Right => ([x, y, rest, h], [x + w - fence, y, fence, h]),
                    Edge::Near => ([x, y, w, fence], [x, y + h - rest, w, rest]),
                    Edge::Far => ([x, y, w, rest], [x, y + h - fence, w, fence]),
                };
                let Becomes::Cut(cut) = batch.layout.parts()[parts.part].becomes else {
                    wrong.push(String::from("what is cut is no part to be cut"));
                    continue;
                };
                for (number, is) in [(cut.near, first), (cut.far, second)] {
                    match number {
                        Some(number) => {
                            let told = placed(batch.layout.parts()[number].place);
                            if told != is {
                                wrong.push(format!("{told:?} comes out as {is:?}"));
                            }
                            table.insert((parts.batch, number), is);
                        }
                        None if is[2] > 0 && is[3] > 0 => {
                            wrong.push(format!("{is:?} is forgotten"));
                        }
                        None => {}
                    }
                }
            }
            sizes.dedup();
            if sizes.len() > 1 {
                wrong.push(format!("{sizes:?} are stacked"));
            }
        }
    }
    for (batch, part) in table.keys() {
        if let Becomes::Cut(_) = plan.batches()[*batch].layout.parts()[*part].becomes {
            wrong.push(format!("part {part} of batch {batch} was never cut"));
        }
    }
    if cuts != plan.sequence().cuts() {
        wrong.push(format!(
            "it takes {cuts} cuts, not {}",
            plan.sequence().cuts()
        ));
    }
    wrong
}
