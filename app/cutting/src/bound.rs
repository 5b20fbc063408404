//! What prices of pieces prove about the cost of any plan.
//!
//! If no filling of a stock is worth more than the sheet costs, all pieces
//! together cost at least what they are worth (duality of linear programs). In
//! whole numbers, so that no rounding can make a bound too high.

use crate::ground::Ground;

/// What a cost of 1 is in values.
pub(crate) const SCALE: i64 = 1 << 24;

/// What pieces are worth, and the most that any filling of each ground is.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Prices<'a> {
    pub(crate) values: &'a [i64],
    pub(crate) most: &'a [i64],
}

/// No plan costs less than this.
pub(crate) fn prove(prices: &Prices, grounds: &[Ground], counts: &[u32], missing: u64) -> u64 {
    prove_exactly(prices, grounds, counts, missing).unwrap_or(0)
}

/// `None` where numbers grow too large.
fn prove_exactly(prices: &Prices, grounds: &[Ground], counts: &[u32], missing: u64) -> Option<u64> {
    let scale = i128::from(SCALE);
    // Values are taken times `over` / `under`, so that no stock of which there
    // is any number gives more than it costs.
    let endless = grounds.iter().zip(prices.most);
    let endless = endless.filter(|(ground, most)| ground.supply.is_none() && **most > 0);
    let mut share: Option<(i128, i128)> = None;
    for (ground, most) in endless {
        let (over, under) = (i128::from(ground.cost) * scale, i128::from(*most));
        if share.is_none_or(|(o, u)| over * u < o * under) {
            share = Some((over, under));
        }
    }
    let (over, under) = share.unwrap_or((1, 1));
    let most_each = i128::from(missing).checked_mul(scale)?.checked_mul(under)?;
    let mut worth: i128 = 0;
    for (value, count) in prices.values.iter().zip(counts) {
        let value = i128::from(*value).checked_mul(over)?.min(most_each);
        worth = worth.checked_add(value.checked_mul(i128::from(*count))?)?;
    }
    for (ground, most) in grounds.iter().zip(prices.most) {
        let Some(supply) = ground.supply else {
            continue;
        };
        let value = i128::from(*most).checked_mul(over)?;
        let cost = i128::from(ground.cost)
            .checked_mul(scale)?
            .checked_mul(under)?;
        worth -= (value - cost).max(0).checked_mul(i128::from(supply))?;
    }
    let whole = scale.checked_mul(under)?;
    if worth <= 0 {
        return Some(0);
    }
    u64::try_from((worth + whole - 1) / whole).ok()
}
