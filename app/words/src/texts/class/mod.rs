//! What stands around what is said of classes and of post.

mod de;
mod en;

area! {
    /// What stands around what is said of classes and of post.
    ClassTexts {
        spare,
        no_spare,
        looking,
        keep_plan,
        look_longer,
        no_fewer_sheets,
        no_better,
        in_each_kit,
        besides_paper,
        add_supply,
        supply_name,
        such_as_gems,
        add_counted,
        add_ribbon,
        add_share,
        so_many_each,
        lasts_for,
        roll_price,
        roll_metres,
        roll_yards,
        roll_mass,
        pack_pieces,
        pack_mass,
        no_mass,
        supplies_without_price,
        on_hand,
        length_on_hand,
        no_count,
        how_it_wraps,
        across,
        upright,
        both_ways,
        knot,
        about_ribbon,
        does_not_close,
        kits_to_print,
        about_kits,
        kits_on_a4,
        kits_on_letter,
        pack_price,
        no_price,
        pack_sheets,
        some_without_price,
        weight_and_post,
        no_envelope,
        envelope_paper,
        bought_envelope,
        which_envelope,
        made_counted,
        supplies_not_weighed,
        stiff,
        ask_post,
        why_not_cheaper,
        add_scrap,
        scrap_upright,
        put_on_shelf,
        make_envelope,
        flat_pattern,
    }
}

pub(crate) static ENGLISH: ClassTexts = en::TEXTS;
pub(crate) static GERMAN: ClassTexts = de::TEXTS;

const _: [[&str; ClassTexts::TEXTS]; 2] = [en::TEXTS.texts(), de::TEXTS.texts()];
