//! Windows, rounded corners and shaped edges of the strip.

use foldwright_engine::problem::Place as Where;
use foldwright_engine::recipe::{
    Added, Anchor, Bend, Cut, Cutout, CutoutId, EdgeForm, EdgeKind, EdgeSide, EditError,
    MOST_WAVES, MeasureId, PanelId, Placing, Recipe, Shaped, StripId, Which, Window,
};
use leptos::prelude::*;

use super::super::desk::Desk;
use super::super::field::{CountField, NameField};
use super::super::number::Number;
use super::super::pull_down::Pick;
use super::super::ties::Rules;
use super::bends::BendList;
use super::outline::OutlineChoice;
use super::problems::ProblemList;
use super::rows::Rows;
use crate::part::Choice;
use crate::spoken::{naming, texts};

/// What is cut out of the strip, and buttons to cut more.
#[component]
pub(super) fn Cutouts(of: StripId) -> impl IntoView {
    let desk = Desk::here();
    let ids = move |recipe: &Recipe| {
        let cutouts = recipe.strip(of).map(|strip| &strip.cutouts[..]);
        let cutouts = cutouts.unwrap_or_default().iter();
        cutouts.map(|cutout| cutout.id).collect()
    };
    let add = move |cut: fn(&mut Recipe, PanelId) -> Result<Added<CutoutId>, EditError>| {
        desk.edit(None, |recipe| {
            let strip = recipe.strip(of).ok_or(EditError::NoPiece)?;
            let first = strip.panels.first().ok_or(EditError::NoPanel)?;
            let added = cut(recipe, first.id)?;
            desk.cutout.set(Some(added.id));
            Ok(added.changes)
        });
    };
    view! {
        <h2>{texts().shape.windows_and_edges}</h2>
        <p class="quiet">
            {texts().shape.cut_out_of_base}
        </p>
        <Rows class="panels cutouts" ids row=|id| view! { <CutoutRow id/> }.into_any()/>
        <div class="actions">
            <button
                type="button"
                class="button"
                on:click=move |_| add(|recipe, panel| recipe.add_window(panel, naming()))
            >
                {texts().shape.add_window}
            </button>
            <button
                type="button"
                class="button"
                on:click=move |_| add(|recipe, panel| recipe.add_corners(panel, naming()))
            >
                {texts().shape.round_corners}
            </button>
            <button
                type="button"
                class="button"
                on:click=move |_| add(|recipe, panel| recipe.add_edge(panel, EdgeSide::Left, naming()))
            >
                {texts().shape.shape_an_edge}
            </button>
        </div>
    }
}

/// What kind of thing is cut out, which settles what is shown of it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sort {
    Window,
    Corners,
    Edge,
}

#[component]
fn CutoutRow(id: CutoutId) -> impl IntoView {
    let desk = Desk::here();
    // A row on its way out has nothing to show any more.
    let cutout = Memo::new(move |_| desk.recipe.with(|recipe| recipe.cutout(id).cloned()));
    let name = Signal::derive(move || {
        cutout.with(|it| it.as_ref().map_or_else(String::new, |it| it.name.clone()))
    });
    let sort = Memo::new(move |_| {
        cutout.with(|it| match it.as_ref().map(|it| &it.cut) {
            Some(Cut::Corners { .. }) => Sort::Corners,
            Some(Cut::Edge { .. }) => Sort::Edge,
            Some(Cut::Window(_)) | None => Sort::Window,
        })
    });
    let rename = move |name: String| {
        // Fails only for what is gone, and then there is nothing to name.
        desk.change(|recipe| drop(recipe.rename_cutout(id, &name, naming())));
    };
    let remove = move |_| {
        desk.edit(None, |recipe| recipe.remove_cutout(id));
    };
    let particulars = move || match sort.get() {
        Sort::Window => view! { <WindowParts id cutout/> }.into_any(),
        Sort::Corners => view! { <CornerParts id cutout/> }.into_any(),
        Sort::Edge => view! { <EdgeParts id cutout/> }.into_any(),
    };
    view! {
        <li class="panel" on:focusin=move |_| desk.cutout.set(Some(id))>
            <ProblemList which=move |problem| problem.place == Where::Cutout(id) here=true/>
            <div class="fields">
                <NameField label=texts().shape.name name rename/>
                <PanelPick id cutout/>
            </div>
            {particulars}
            <div class="actions">
                <button
                    type="button"
                    class="button quiet"
                    aria-label=move || texts().desk.remove_this(&name.get())
                    on:click=remove
                >
                    {texts().desk.remove}
                </button>
            </div>
        </li>
    }
}

/// A measure of what is cut out.
fn measure(
    desk: Desk,
    cutout: Memo<Option<Cutout>>,
    part: fn(&Cut) -> Option<MeasureId>,
) -> Signal<MeasureId> {
    Signal::derive(move || {
        let base = desk.recipe.with(|recipe| recipe.base.length);
        cutout.with(|it| it.as_ref().and_then(|it| part(&it.cut)).unwrap_or(base))
    })
}

/// The panel it is cut out of; of corners one at an end of the strip.
#[component]
fn PanelPick(id: CutoutId, cutout: Memo<Option<Cutout>>) -> impl IntoView {
    let desk = Desk::here();
    let corners = move || {
        cutout.with(|it| matches!(it.as_ref().map(|it| &it.cut), Some(Cut::Corners { .. })))
    };
    let chosen =
        Signal::derive(move || cutout.with(|it| it.as_ref().map_or(PanelId(0), |it| it.panel)));
    let options = Signal::derive(move || {
        let (chosen, corners) = (chosen.get(), corners());
        desk.recipe.with(|recipe| {
            let Some((_, strip, _)) = recipe.strip_with(chosen) else {
                return Vec::new();
            };
            let free = |id| {
                let sides = [EdgeSide::Left, EdgeSide::Right];
                sides.into_iter().any(|side| strip.is_free(id, side))
            };
            let panels = strip.panels.iter();
            panels
                .filter(|panel| !corners || free(panel.id) || panel.id == chosen)
                .map(|panel| (panel.id, panel.name.clone()))
                .collect::<Vec<_>>()
        })
    });
    let choose = move |panel| {
        desk.edit(None, |recipe| recipe.recut(id, |it| it.panel = panel));
    };
    view! { <Pick label=texts().shape.in_panel options chosen choose/> }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Held {
    Border,
    Middle,
    Distances,
}

#[component]
fn WindowParts(id: CutoutId, cutout: Memo<Option<Cutout>>) -> impl IntoView {
    let desk = Desk::here();
    let of = move |part: fn(&Window) -> MeasureId| {
        Signal::derive(move || {
            let base = desk.recipe.with(|recipe| recipe.base.length);
            let window = |it: &Option<Cutout>| Some(part(it.as_ref()?.cut.window()?));
            cutout.with(window).unwrap_or(base)
        })
    };
    let place = Memo::new(move |_| {
        cutout.with(|it| {
            let window = it.as_ref().and_then(|it| it.cut.window());
            window.map_or(Placing::Distances, |window| window.place)
        })
    });
    let held = Signal::derive(move || match place.get() {
        Placing::Border(_) => Held::Border,
        Placing::At(_) => Held::Middle,
        Placing::Distances => Held::Distances,
    });
    let hold = move |held| {
        desk.edit(None, |recipe| match held {
            Held::Border => recipe.border_window(id, naming()),
            Held::Middle => recipe.place_window(id, Placing::At(Anchor::Centre)),
            Held::Distances => recipe.place_window(id, Placing::Distances),
        });
    };
    let measures = Signal::derive(move || {
        let window = |it: &Option<Cutout>| {
            let window = it.as_ref()?.cut.window()?;
            Some(vec![
                window.width,
                window.height,
                window.left,
                window.bottom,
            ])
        };
        cutout.with(window).unwrap_or_default()
    });
    let border = move || match place.get() {
        Placing::Border(border) => {
            Some(view! { <Number measure=Signal::stored(border) label=texts().shape.frame/> })
        }
        Placing::At(_) | Placing::Distances => None,
    };
    view! {
        <div class="numbers">
            <Number measure=of(|window| window.width) label=texts().shape.width/>
            <Number measure=of(|window| window.height) label=texts().shape.height/>
            <Number measure=of(|window| window.left) label=texts().shape.from_the_left/>
            <Number measure=of(|window| window.bottom) label=texts().shape.from_the_bottom/>
            {border}
        </div>
        <Choice
            label=texts().shape.placed
            options=|| vec![
                (Held::Border, texts().shape.even_frame),
                (Held::Middle, texts().shape.in_the_middle),
                (Held::Distances, texts().shape.by_distances),
            ]
            chosen=held
            choose=hold
        />
        <Rules measures/>
        <OutlineChoice of=Shaped::Window(id)/>
    }
}

#[component]
fn CornerParts(id: CutoutId, cutout: Memo<Option<Cutout>>) -> impl IntoView {
    let desk = Desk::here();
    let radius = measure(desk, cutout, |cut| match cut {
        Cut::Corners { radius, .. } => Some(*radius),
        Cut::Window(_) | Cut::Edge { .. } => None,
    });
    let chosen = Signal::derive(move || {
        cutout.with(|it| match it.as_ref().map(|it| &it.cut) {
            Some(Cut::Corners { which, .. }) => *which,
            _ => Which::Both,
        })
    });
    let choose = move |chosen| {
        desk.edit(None, |recipe| {
            recipe.recut(id, |it| {
                if let Cut::Corners { which, .. } = &mut it.cut {
                    *which = chosen;
                }
            })
        });
    };
    view! {
        <div class="numbers">
            <Number measure=radius label=texts().shape.radius/>
        </div>
        <Choice
            label=texts().shape.which_corners
            options=|| vec![
                (Which::Both, texts().shape.both),
                (Which::Upper, texts().shape.upper),
                (Which::Lower, texts().shape.lower),
            ]
            chosen
            choose
        />
    }
}

fn forms() -> [(EdgeKind, &'static str); 5] {
    let texts = &texts().shape;
    [
        (EdgeKind::Arch, texts.arc_outwards),
        (EdgeKind::Hollow, texts.arc_inwards),
        (EdgeKind::Scallops, texts.scallops),
        (EdgeKind::Points, texts.points),
        (EdgeKind::Cut, texts.corner_by_corner),
    ]
}

fn sides() -> [(EdgeSide, &'static str); 4] {
    let texts = &texts().shape;
    [
        (EdgeSide::Left, texts.left),
        (EdgeSide::Right, texts.right),
        (EdgeSide::Top, texts.upper),
        (EdgeSide::Bottom, texts.lower),
    ]
}

#[component]
fn EdgeParts(id: CutoutId, cutout: Memo<Option<Cutout>>) -> impl IntoView {
    let desk = Desk::here();
    let depth = measure(desk, cutout, |cut| match cut {
        Cut::Edge { depth, .. } => Some(*depth),
        Cut::Window(_) | Cut::Corners { .. } => None,
    });
    let edge = move || {
        cutout.with(|it| match it.as_ref().map(|it| (&it.cut, it.panel)) {
            Some((Cut::Edge { side, form, .. }, panel)) => (*side, form.clone(), panel),
            _ => (EdgeSide::Left, EdgeForm::Arch, PanelId(0)),
        })
    };
    let form = Memo::new(move |_| edge().1);
    let change = move |change: &dyn Fn(&mut EdgeSide, &mut EdgeForm)| {
        desk.edit(None, |recipe| {
            recipe.recut(id, |it| {
                if let Cut::Edge { side, form, .. } = &mut it.cut {
                    change(side, form);
                }
            })
        });
    };
    let sides = Signal::derive(move || {
        let (chosen, _, panel) = edge();
        desk.recipe.with(|recipe| {
            let sides = sides().into_iter();
            sides
                .filter(|(side, _)| {
                    let strip = recipe.strip_with(panel);
                    strip.is_some_and(|(_, strip, _)| strip.is_free(panel, *side))
                        || *side == chosen
                })
                .map(|(side, word)| (side, word.to_owned()))
                .collect::<Vec<_>>()
        })
    });
    let forms: Vec<_> = forms()
        .into_iter()
        .map(|(kind, word)| (kind, word.to_owned()))
        .collect();
    let kind = Memo::new(move |_| form.with(EdgeForm::kind));
    let waves = Signal::derive(move || {
        form.with(|form| match form {
            EdgeForm::Scallops(count) | EdgeForm::Points(count) => *count,
            EdgeForm::Arch | EdgeForm::Hollow | EdgeForm::Cut(_) => 1,
        })
    });
    let set_waves = move |to: u8| {
        change(&|_, form| {
            if let EdgeForm::Scallops(count) | EdgeForm::Points(count) = form {
                *count = to;
            }
        });
    };
    let bends = Signal::derive(move || {
        form.with(|form| match form {
            EdgeForm::Cut(bends) => bends.clone(),
            _ => Vec::new(),
        })
    });
    let set_bends = move |to: Vec<Bend>| {
        change(&|_, form| *form = EdgeForm::Cut(to.clone()));
    };
    let more = move || {
        match kind.get() {
        EdgeKind::Arch | EdgeKind::Hollow => ().into_any(),
        EdgeKind::Scallops => view! {
            <CountField label=texts().shape.scallops count=waves most=MOST_WAVES set=set_waves/>
        }
        .into_any(),
        EdgeKind::Points => view! {
            <CountField label=texts().shape.points count=waves most=MOST_WAVES set=set_waves/>
        }
        .into_any(),
        EdgeKind::Cut => view! {
            <p class="quiet">
                {texts().shape.percent_along_edge}
            </p>
            <BendList bends set=set_bends labels=[texts().shape.along, texts().shape.inwards, texts().shape.bend] closed=false/>
        }
        .into_any(),
    }
    };
    view! {
        <div class="numbers">
            <Number measure=depth label=texts().shape.depth/>
        </div>
        <div class="fields">
            <Pick
                label=texts().shape.which_edge
                options=sides
                chosen=Signal::derive(move || edge().0)
                choose=move |to| change(&|side, _| *side = to)
            />
            <Pick
                label=texts().shape.how_it_runs
                options=Signal::stored(forms)
                chosen=Signal::derive(move || kind.get())
                choose=move |kind| change(&|_, form| *form = EdgeForm::of(kind))
            />
        </div>
        {more}
    }
}
