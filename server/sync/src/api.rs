//! What devices ask besides: pairing, devices, shares, the backup of a
//! workshop.

use std::collections::BTreeMap;
use std::time::Instant;

use async_trait::async_trait;
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use foldwright_api::{self as api, Ailing, Asked, Code, Joined, Link, Refused, Shared, Workshops};
use foldwright_document::frame;
use serde_json::json;

use crate::hub::{Hub, now, whole};
use crate::secret::{self, NoRandomness};
use crate::store::{Device, Share, Trouble, Workshop};

/// How long a pairing code may be used, in seconds.
const PAIRING: u32 = 10 * 60;
/// The longest name of a device or workshop, in characters.
const LONGEST_NAME: usize = 60;

impl From<Trouble> for Refused {
    fn from(trouble: Trouble) -> Self {
        tracing::error!(%trouble, "a question was not answered");
        Self::Trouble(trouble.ailing())
    }
}

impl From<NoRandomness> for Refused {
    fn from(_: NoRandomness) -> Self {
        tracing::error!("the system has no random numbers to give");
        Self::Trouble(Ailing::Other)
    }
}

impl Hub {
    /// The device that shows this key.
    pub(crate) async fn asking(&self, key: &str) -> Result<Device, Refused> {
        let device = self.store.device(&secret::hash(key)).await?;
        device.ok_or(Refused::NoKey)
    }

    async fn workshop(&self, id: &str) -> Result<Workshop, Refused> {
        let workshops = self.store.workshops().await?;
        let workshop = workshops.into_iter().find(|it| it.id == id);
        workshop.ok_or(Refused::Missing)
    }
}

#[async_trait]
impl Workshops for Hub {
    async fn join(&self, asked: &Asked, code: &str, name: &str) -> Result<Joined, Refused> {
        if !self.rate.allows(asked.from, Instant::now()) {
            return Err(Refused::TooMany);
        }
        let name = readable(name).ok_or(Refused::Nameless)?;
        let hash = secret::code_hash(code);
        let workshop = self.store.accept(&hash, now()).await?;
        let workshop = workshop.ok_or(Refused::Missing)?;
        self.store.add_workshop(&workshop, now()).await?;
        let key = secret::key()?;
        let device = Device {
            id: secret::name()?,
            workshop: workshop.id,
            name,
            made: now(),
            seen: now(),
            revoked: false,
        };
        self.store.add_device(&device, &secret::hash(&key)).await?;
        Ok(Joined {
            key,
            device: device.id,
            workshop: device.workshop,
            workshop_name: workshop.name,
            device_name: device.name,
        })
    }

    async fn place(&self, key: &str) -> Result<Joined, Refused> {
        let device = self.asking(key).await?;
        let workshop = self.workshop(&device.workshop).await?;
        Ok(Joined {
            key: key.to_owned(),
            device: device.id,
            workshop: device.workshop,
            workshop_name: workshop.name,
            device_name: device.name,
        })
    }

    async fn code(&self, asked: &Asked, key: &str) -> Result<Code, Refused> {
        let device = self.asking(key).await?;
        let workshop = self.workshop(&device.workshop).await?;
        let code = secret::code()?;
        let until = now() + i64::from(PAIRING);
        let hash = secret::code_hash(&code);
        self.store.offer(&hash, &workshop, until).await?;
        // After the number sign, so that no server on the way reads it.
        let link = format!("{}/devices#code={code}", asked.address);
        Ok(Code {
            code,
            seconds: PAIRING,
            picture: picture(&link),
            link,
        })
    }

    async fn devices(&self, key: &str) -> Result<Vec<api::Device>, Refused> {
        let asking = self.asking(key).await?;
        let devices = self.store.devices(&asking.workshop).await?;
        let devices = devices.into_iter().filter(|device| !device.revoked);
        let now = now();
        Ok(devices
            .map(|device| api::Device {
                own: device.id == asking.id,
                id: device.id,
                name: device.name,
                made: device.made,
                seen_ago: now.saturating_sub(device.seen).max(0),
            })
            .collect())
    }

    async fn rename_device(&self, key: &str, id: &str, name: &str) -> Result<(), Refused> {
        let asking = self.asking(key).await?;
        let name = readable(name).ok_or(Refused::Nameless)?;
        let found = self.store.rename_device(&asking.workshop, id, &name);
        found_or_missing(found.await?)
    }

    async fn rename_workshop(&self, key: &str, name: &str) -> Result<(), Refused> {
        let asking = self.asking(key).await?;
        let name = readable(name).ok_or(Refused::Nameless)?;
        let found = self.store.rename_workshop(&asking.workshop, &name);
        found_or_missing(found.await?)
    }

    async fn revoke(&self, key: &str, id: &str) -> Result<(), Refused> {
        let asking = self.asking(key).await?;
        found_or_missing(
            self.store
                .revoke(&asking.workshop, id, &asking.name)
                .await?,
        )?;
        // Nobody may be connected.
        let _ = self.revoked.send(id.to_owned());
        Ok(())
    }

    async fn leave(&self, key: &str) -> Result<(), Refused> {
        let asking = self.asking(key).await?;
        self.revoke(key, &asking.id).await
    }

    async fn room(&self, key: &str) -> Result<api::Room, Refused> {
        let asking = self.asking(key).await?;
        let taken = self.store.taken(&asking.workshop).await?;
        let disk = self.store.disk().await;
        Ok(api::Room {
            taken: u64::try_from(taken).unwrap_or_default(),
            disk: disk.map(|disk| (disk.free, disk.whole)),
        })
    }

    async fn backup(&self, key: &str) -> Result<String, Refused> {
        let asking = self.asking(key).await?;
        let mut pieces: BTreeMap<String, Vec<_>> = BTreeMap::new();
        let mut number = 0;
        loop {
            let kept = self.store.since(&asking.workshop, number).await?;
            let Some(last) = kept.last() else { break };
            number = last.number;
            for kept in kept {
                pieces.entry(kept.document.clone()).or_default().push(kept);
            }
        }
        let mut documents = serde_json::Map::new();
        for (name, kept) in pieces {
            let document = whole(kept).await.ok_or(Refused::Missing)?;
            documents.insert(name, BASE64_STANDARD.encode(document.bytes()).into());
        }
        Ok(json!({ "foldwright_backup": 1, "documents": documents }).to_string())
    }

    async fn share(&self, asked: &Asked, key: &str, document: &str) -> Result<Link, Refused> {
        let asking = self.asking(key).await?;
        if !frame::is_name(document) {
            return Err(Refused::Senseless);
        }
        let kept = self.store.document(&asking.workshop, document).await?;
        found_or_missing(!kept.is_empty())?;
        let token = secret::key()?;
        let share = Share {
            id: secret::name()?,
            workshop: asking.workshop,
            document: document.to_owned(),
            made: now(),
        };
        self.store.share(&share, &secret::hash(&token)).await?;
        let link = format!("{}/shared/{token}", asked.address);
        Ok(Link {
            id: share.id,
            document: share.document,
            picture: picture(&link),
            link,
        })
    }

    async fn shares(&self, key: &str) -> Result<Vec<api::Share>, Refused> {
        let asking = self.asking(key).await?;
        let shares = self.store.shares(&asking.workshop).await?;
        Ok(shares
            .into_iter()
            .map(|share| api::Share {
                id: share.id,
                document: share.document,
                made: share.made,
            })
            .collect())
    }

    async fn unshare(&self, key: &str, id: &str) -> Result<(), Refused> {
        let asking = self.asking(key).await?;
        found_or_missing(self.store.unshare(&asking.workshop, id).await?)
    }

    async fn shared_state(&self, token: &str) -> Result<String, Refused> {
        let share = self.store.shared(&secret::hash(token)).await?;
        let share = share.ok_or(Refused::Missing)?;
        let state = self.store.state(&share.workshop, &share.document).await?;
        let state = state.ok_or(Refused::Missing)?;
        let from = self.workshop(&share.workshop).await;
        let from = from.map(|it| it.name).unwrap_or_default();
        // Names of documents hold no line ends.
        Ok(format!(
            "{state}\n{}\n{}\n{from}",
            share.workshop, share.document
        ))
    }

    async fn shared(&self, token: &str) -> Result<Shared, Refused> {
        let share = self.store.shared(&secret::hash(token)).await?;
        let share = share.ok_or(Refused::Missing)?;
        let kept = self
            .store
            .document(&share.workshop, &share.document)
            .await?;
        let document = whole(kept).await.ok_or(Refused::Missing)?;
        let workshops = self.store.workshops().await?;
        let from = workshops.into_iter().find(|it| it.id == share.workshop);
        Ok(Shared {
            document: BASE64_STANDARD.encode(document.bytes()),
            from: from.map(|it| it.name).unwrap_or_default(),
        })
    }

    async fn shared_photo(&self, token: &str, photo: &str) -> Result<Vec<u8>, Refused> {
        let share = self.store.shared(&secret::hash(token)).await?;
        let share = share.ok_or(Refused::Missing)?;
        let file = self.store.photo(&share.workshop, photo).await?;
        file.ok_or(Refused::Missing)
    }
}

fn found_or_missing(found: bool) -> Result<(), Refused> {
    found.then_some(()).ok_or(Refused::Missing)
}

/// A name as people write it: no control characters, not too long, and
/// something of it to see.
pub(crate) fn readable(name: &str) -> Option<String> {
    let name: String = name
        .chars()
        .filter(|c| !c.is_control())
        .take(LONGEST_NAME)
        .collect();
    let name = name.trim();
    let seen = name.chars().any(|c| !c.is_whitespace() && !is_unseen(c));
    seen.then(|| name.to_owned())
}

/// Whether a character shapes others and shows nothing itself: soft hyphen,
/// joiners, marks of direction, variants, the blanks of Hangul and Braille
/// (`Default_Ignorable_Code_Point` of Unicode, as far as it is assigned).
fn is_unseen(c: char) -> bool {
    matches!(
        c,
        '\u{ad}'
            | '\u{34f}'
            | '\u{61c}'
            | '\u{115f}'..='\u{1160}'
            | '\u{17b4}'..='\u{17b5}'
            | '\u{180b}'..='\u{180f}'
            | '\u{200b}'..='\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{2800}'
            | '\u{3164}'
            | '\u{fe00}'..='\u{fe0f}'
            | '\u{feff}'
            | '\u{ffa0}'
            | '\u{e0000}'..='\u{e0fff}'
    )
}

/// A picture of a text that phones can read; empty where the text is too long.
fn picture(text: &str) -> String {
    let code = qrcode::QrCode::new(text);
    code.map_or_else(
        |_| String::new(),
        |code| {
            let mut svg = code.render::<qrcode::render::svg::Color>();
            svg.min_dimensions(240, 240).build()
        },
    )
}

#[cfg(test)]
mod tests {
    use super::{picture, readable};

    #[test]
    fn names_are_made_readable() {
        assert_eq!(readable(" Kai’s\nphone "), Some("Kai’sphone".to_owned()));
        for nothing in [
            "",
            " ",
            "\u{7}",
            "\u{a0}\u{3000}",
            "\u{200b}",
            "\u{202e} \u{feff}",
        ] {
            assert_eq!(readable(nothing), None, "{nothing:?}");
        }
        // A family of emoji is joined by what is not seen itself.
        let family = "\u{1f469}\u{200d}\u{1f467}";
        assert_eq!(readable(family).as_deref(), Some(family));
        assert_eq!(readable(&"x".repeat(99)).map(|name| name.len()), Some(60));
        assert!(picture("https://cards.example").contains("<svg"));
        assert_eq!(picture(&"x".repeat(9000)), "");
    }
}
