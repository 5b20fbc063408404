//! The card as it was designed, while a refit has made it another.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::edit::Edited;
use super::{Change, MeasureId, Recipe};
use crate::length::Length;
use crate::plane::Size;

/// The sheet a fitted card was designed for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct DesignedOn {
    /// How large it was.
    pub sheet: Size,
    /// How large the sheet is that the card was fitted to; once the maker gives
    /// the paper another size, the card is designed for that.
    pub fitted: Size,
}

impl Recipe {
    /// Whether a refit has made the card another than it was designed.
    pub fn is_fitted(&self) -> bool {
        self.measures.iter().any(|it| it.designed.is_some())
    }

    /// The card as it was designed, before it was fitted to anything; as it is,
    /// where it was not fitted.
    #[must_use]
    pub fn as_designed(&self) -> Self {
        let mut design = self.clone();
        design.take_for_design();
        if !self.is_fitted() {
            return design;
        }
        for (measure, fitted) in design.measures.iter_mut().zip(&self.measures) {
            if let Some(designed) = fitted.designed.filter(|_| !fitted.pinned) {
                measure.value = designed;
            }
        }
        let base = design.base.stock;
        if let Some(stock) = design.stocks.iter_mut().find(|stock| stock.id == base)
            && let Some(on) = self.designed_on
            && (stock.width, stock.height) == (on.fitted.width, on.fitted.height)
        {
            (stock.width, stock.height) = (on.sheet.width, on.sheet.height);
        }
        // What has been added since follows what it was added to. Where that
        // can't be, a refit brings it together.
        let _ = design.settle(&[], &[], &[]);
        design
    }

    /// Takes the card as it is now for its design.
    pub fn take_for_design(&mut self) {
        for measure in &mut self.measures {
            measure.designed = None;
        }
        self.designed_on = None;
    }

    /// Notes what a fitted card was designed like.
    pub(crate) fn fitted_from(&mut self, design: &Self) {
        for measure in &mut self.measures {
            let designed = design.measure(measure.id).map(|it| it.value);
            measure.designed = designed.filter(|designed| *designed != measure.value);
        }
        let sheet = |recipe: &Self| {
            let stock = recipe.stock(recipe.base.stock)?;
            Some(Size {
                width: stock.width,
                height: stock.height,
            })
        };
        let sheets = sheet(design).zip(sheet(self));
        let on = sheets.map(|(sheet, fitted)| DesignedOn { sheet, fitted });
        self.designed_on = on.filter(|on| self.is_fitted() && on.sheet != on.fitted);
    }

    /// Keeps what was noted of the design through a change that moves nothing but
    /// measures of what it adds.
    pub(super) fn beside_design(
        &mut self,
        added: &[MeasureId],
        change: impl FnOnce(&mut Self) -> Edited<Vec<Change>>,
    ) -> Edited<Vec<Change>> {
        let measures = self.measures.iter();
        let designed: BTreeMap<_, _> = measures.map(|it| (it.id, it.designed)).collect();
        let designed_on = self.designed_on;
        let changes = change(self)?;
        if changes.iter().all(|it| added.contains(&it.measure)) {
            for measure in &mut self.measures {
                measure.designed = designed.get(&measure.id).copied().flatten();
            }
            self.designed_on = designed_on;
        }
        Ok(changes)
    }

    /// Makes a change of a measure to the card as it was designed as well. Where
    /// that can't take it, the card as it has become is the design.
    pub(super) fn with_design(
        &mut self,
        measure: MeasureId,
        value: Length,
        change: impl FnOnce(&mut Self) -> Edited<Vec<Change>>,
    ) -> Edited<Vec<Change>> {
        let design = self.is_fitted().then(|| self.as_designed());
        let changes = change(self)?;
        if let Some(mut design) = design
            && design.set(measure, value).is_ok()
        {
            self.fitted_from(&design);
        }
        Ok(changes)
    }
}
