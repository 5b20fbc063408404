//! What both databases understand alike, written once.

/// How many bytes of changes are read at a time, at least one change.
pub(super) const BATCH: usize = 256 * 1024;
/// How many changes are read at a time.
pub(super) const MOST: i64 = 500;

/// How many rows one statement names, each with up to four values; databases
/// take some 30,000 values.
pub(super) const ROWS: usize = 1000;

/// Implements the trait for a type with a `pool`. `$begin` starts a
/// transaction that will write; within it, `$turn` waits for the turn to write
/// to workshops, and `$tell` tells other instances.
macro_rules! store {
    ($store:ty, $begin:expr, $turn:expr, $tell:expr) => {
        #[async_trait::async_trait]
        impl Store for $store {
            async fn append(&self, changes: &[Change]) -> Result<Vec<i64>, Trouble> {
                let mut counts: BTreeMap<&str, i64> = BTreeMap::new();
                for change in changes {
                    *counts.entry(&change.workshop).or_default() += 1;
                }
                let mut transaction = $begin(&self.pool).await?;
                $turn(&mut *transaction, counts.keys().copied()).await?;
                // The row of a workshop keeps numbers in the order of commits.
                let mut next: BTreeMap<String, i64> = BTreeMap::new();
                let counted: Vec<_> = counts.iter().collect();
                for counted in counted.chunks(ROWS) {
                    let mut raise = QueryBuilder::<Db>::new("WITH given (id, more) AS (");
                    raise.push_values(counted, |mut row, (workshop, count)| {
                        row.push_bind(**workshop).push_bind(**count);
                    });
                    raise.push(
                        ") UPDATE workshop SET last = last + given.more FROM given \
                         WHERE workshop.id = given.id RETURNING workshop.id, last",
                    );
                    let raised: Vec<(String, i64)> = raise
                        .build_query_as()
                        .persistent(false)
                        .fetch_all(&mut *transaction)
                        .await?;
                    next.extend(raised);
                }
                let news = next
                    .iter()
                    .map(|(workshop, last)| format!("c {} {last} {workshop}", self.instance));
                $tell(&mut *transaction, news.collect()).await?;
                for (workshop, last) in &mut next {
                    *last -= counts.get(&**workshop).copied().unwrap_or_default();
                }
                let mut numbers = Vec::with_capacity(changes.len());
                for change in changes {
                    let number = next
                        .get_mut(&change.workshop)
                        .ok_or_else(|| Trouble::Other(String::from("there is no such workshop")))?;
                    *number += 1;
                    numbers.push(*number);
                }
                let numbered: Vec<_> = changes.iter().zip(&numbers).collect();
                for numbered in numbered.chunks(ROWS) {
                    let mut add = QueryBuilder::<Db>::new(
                        "INSERT INTO change (workshop, number, document, body) ",
                    );
                    add.push_values(numbered, |mut row, (change, number)| {
                        row.push_bind(&change.workshop)
                            .push_bind(**number)
                            .push_bind(&change.document)
                            .push_bind(&change.update[..]);
                    });
                    add.build()
                        .persistent(false)
                        .execute(&mut *transaction)
                        .await?;
                }
                transaction.commit().await?;
                Ok(numbers)
            }

            async fn document(&self, workshop: &str, document: &str) -> Result<Vec<Kept>, Trouble> {
                let rows: Vec<(i64, String, Vec<u8>)> = sqlx::query_as(
                    "SELECT number, document, body FROM whole \
                     WHERE workshop = $1 AND document = $2 UNION ALL \
                     SELECT number, document, body FROM change \
                     WHERE workshop = $1 AND document = $2 ORDER BY number",
                )
                .bind(workshop)
                .bind(document)
                .fetch_all(&self.pool)
                .await?;
                Ok(rows.into_iter().map(kept).collect())
            }

            async fn state(&self, workshop: &str, document: &str) -> Result<Option<i64>, Trouble> {
                let state = sqlx::query_scalar(
                    "SELECT MAX(number) FROM (SELECT number FROM whole \
                     WHERE workshop = $1 AND document = $2 UNION ALL \
                     SELECT MAX(number) FROM change \
                     WHERE workshop = $1 AND document = $2) AS numbers",
                );
                let state = state.bind(workshop).bind(document);
                Ok(state.fetch_one(&self.pool).await?)
            }

            async fn since(&self, workshop: &str, number: i64) -> Result<Vec<Kept>, Trouble> {
                let mut rows = sqlx::query_as::<_, (i64, String, Vec<u8>)>(
                    "SELECT number, document, body FROM whole \
                     WHERE workshop = $1 AND number > $2 UNION ALL \
                     SELECT number, document, body FROM change \
                     WHERE workshop = $1 AND number > $2 ORDER BY number LIMIT $3",
                )
                .bind(workshop)
                .bind(number)
                .bind(MOST)
                .fetch(&self.pool);
                let mut all = Vec::new();
                let mut bytes = 0;
                while let Some(row) = rows.try_next().await? {
                    bytes += row.2.len();
                    all.push(kept(row));
                    if bytes > BATCH {
                        break;
                    }
                }
                Ok(all)
            }

            async fn last(&self, workshop: &str) -> Result<i64, Trouble> {
                let last = sqlx::query_scalar("SELECT last FROM workshop WHERE id = $1")
                    .bind(workshop)
                    .fetch_optional(&self.pool)
                    .await?;
                Ok(last.unwrap_or(0))
            }

            async fn scattered(&self, changes: i64) -> Result<Vec<(String, String)>, Trouble> {
                Ok(sqlx::query_as(
                    "SELECT workshop, document FROM change \
                     GROUP BY workshop, document HAVING COUNT(*) >= $1",
                )
                .bind(changes)
                .fetch_all(&self.pool)
                .await?)
            }

            async fn compact(
                &self,
                workshop: &str,
                document: &str,
                upto: i64,
                whole: &[u8],
            ) -> Result<(), Trouble> {
                let mut transaction = $begin(&self.pool).await?;
                // Somebody else may have come further; theirs stays then.
                let done = sqlx::query(
                    "INSERT INTO whole (workshop, document, number, body) \
                     VALUES ($1, $2, $3, $4) ON CONFLICT (workshop, document) DO UPDATE \
                     SET number = excluded.number, body = excluded.body \
                     WHERE whole.number < excluded.number",
                )
                .bind(workshop)
                .bind(document)
                .bind(upto)
                .bind(whole)
                .execute(&mut *transaction)
                .await?
                .rows_affected();
                if done > 0 {
                    sqlx::query(
                        "DELETE FROM change \
                         WHERE workshop = $1 AND document = $2 AND number <= $3",
                    )
                    .bind(workshop)
                    .bind(document)
                    .bind(upto)
                    .execute(&mut *transaction)
                    .await?;
                }
                Ok(transaction.commit().await?)
            }

            async fn add_workshop(&self, workshop: &Workshop, at: i64) -> Result<(), Trouble> {
                sqlx::query(
                    "INSERT INTO workshop (id, name, made) VALUES ($1, $2, $3) \
                     ON CONFLICT (id) DO NOTHING",
                )
                .bind(&workshop.id)
                .bind(&workshop.name)
                .bind(at)
                .execute(&self.pool)
                .await?;
                Ok(())
            }

            async fn rename_workshop(&self, workshop: &str, name: &str) -> Result<bool, Trouble> {
                let done = sqlx::query("UPDATE workshop SET name = $1 WHERE id = $2")
                    .bind(name)
                    .bind(workshop)
                    .execute(&self.pool)
                    .await?;
                Ok(done.rows_affected() > 0)
            }

            async fn workshops(&self) -> Result<Vec<Workshop>, Trouble> {
                let rows: Vec<(String, String)> =
                    sqlx::query_as("SELECT id, name FROM workshop ORDER BY made, id")
                        .fetch_all(&self.pool)
                        .await?;
                let workshops = rows.into_iter().map(|(id, name)| Workshop { id, name });
                Ok(workshops.collect())
            }

            async fn add_device(&self, device: &Device, key: &Hash) -> Result<(), Trouble> {
                sqlx::query(
                    "INSERT INTO device (id, workshop, name, key, made, seen) \
                     VALUES ($1, $2, $3, $4, $5, $6)",
                )
                .bind(&device.id)
                .bind(&device.workshop)
                .bind(&device.name)
                .bind(&key[..])
                .bind(device.made)
                .bind(device.seen)
                .execute(&self.pool)
                .await?;
                Ok(())
            }

            async fn device(&self, key: &Hash) -> Result<Option<Device>, Trouble> {
                let row = sqlx::query_as(
                    "SELECT id, workshop, name, made, seen, revoked FROM device \
                     WHERE key = $1 AND revoked = 0",
                )
                .bind(&key[..])
                .fetch_optional(&self.pool)
                .await?;
                Ok(row.map(device))
            }

            async fn devices(&self, workshop: &str) -> Result<Vec<Device>, Trouble> {
                let rows = sqlx::query_as(
                    "SELECT id, workshop, name, made, seen, revoked FROM device \
                     WHERE workshop = $1 ORDER BY made, id",
                )
                .bind(workshop)
                .fetch_all(&self.pool)
                .await?;
                Ok(rows.into_iter().map(device).collect())
            }

            async fn seen(&self, device: &str, at: i64) -> Result<(), Trouble> {
                sqlx::query("UPDATE device SET seen = $1 WHERE id = $2")
                    .bind(at)
                    .bind(device)
                    .execute(&self.pool)
                    .await?;
                Ok(())
            }

            async fn rename_device(
                &self,
                workshop: &str,
                device: &str,
                name: &str,
            ) -> Result<bool, Trouble> {
                let done = sqlx::query(
                    "UPDATE device SET name = $1 WHERE workshop = $2 AND id = $3 AND revoked = 0",
                )
                .bind(name)
                .bind(workshop)
                .bind(device)
                .execute(&self.pool)
                .await?;
                Ok(done.rows_affected() > 0)
            }

            async fn remover(&self, key: &Hash) -> Result<Option<String>, Trouble> {
                let row: Option<(String,)> =
                    sqlx::query_as("SELECT remover FROM device WHERE key = $1 AND revoked <> 0")
                        .bind(&key[..])
                        .fetch_optional(&self.pool)
                        .await?;
                Ok(row.map(|(remover,)| remover))
            }

            async fn revoke(
                &self,
                workshop: &str,
                device: &str,
                remover: &str,
            ) -> Result<bool, Trouble> {
                let mut transaction = $begin(&self.pool).await?;
                let done = sqlx::query(
                    "UPDATE device SET revoked = 1, remover = $3 \
                     WHERE workshop = $1 AND id = $2 AND revoked = 0",
                )
                .bind(workshop)
                .bind(device)
                .bind(remover)
                .execute(&mut *transaction)
                .await?
                .rows_affected();
                if done > 0 {
                    let news = format!("r {} {device}", self.instance);
                    $tell(&mut *transaction, vec![news]).await?;
                }
                transaction.commit().await?;
                Ok(done > 0)
            }

            async fn offer(
                &self,
                code: &Hash,
                workshop: &Workshop,
                until: i64,
            ) -> Result<(), Trouble> {
                sqlx::query(
                    "INSERT INTO offer (code, workshop, name, until) VALUES ($1, $2, $3, $4)",
                )
                .bind(&code[..])
                .bind(&workshop.id)
                .bind(&workshop.name)
                .bind(until)
                .execute(&self.pool)
                .await?;
                Ok(())
            }

            async fn accept(&self, code: &Hash, now: i64) -> Result<Option<Workshop>, Trouble> {
                let mut transaction = $begin(&self.pool).await?;
                sqlx::query("DELETE FROM offer WHERE until < $1")
                    .bind(now)
                    .execute(&mut *transaction)
                    .await?;
                let row: Option<(String, String)> =
                    sqlx::query_as("DELETE FROM offer WHERE code = $1 RETURNING workshop, name")
                        .bind(&code[..])
                        .fetch_optional(&mut *transaction)
                        .await?;
                transaction.commit().await?;
                Ok(row.map(|(id, name)| Workshop { id, name }))
            }

            async fn share(&self, share: &Share, token: &Hash) -> Result<(), Trouble> {
                sqlx::query(
                    "INSERT INTO share (id, workshop, document, token, made) \
                     VALUES ($1, $2, $3, $4, $5)",
                )
                .bind(&share.id)
                .bind(&share.workshop)
                .bind(&share.document)
                .bind(&token[..])
                .bind(share.made)
                .execute(&self.pool)
                .await?;
                Ok(())
            }

            async fn shared(&self, token: &Hash) -> Result<Option<Share>, Trouble> {
                let row = sqlx::query_as(
                    "SELECT id, workshop, document, made FROM share WHERE token = $1",
                )
                .bind(&token[..])
                .fetch_optional(&self.pool)
                .await?;
                Ok(row.map(share))
            }

            async fn shares(&self, workshop: &str) -> Result<Vec<Share>, Trouble> {
                let rows = sqlx::query_as(
                    "SELECT id, workshop, document, made FROM share \
                     WHERE workshop = $1 ORDER BY made, id",
                )
                .bind(workshop)
                .fetch_all(&self.pool)
                .await?;
                Ok(rows.into_iter().map(share).collect())
            }

            async fn unshare(&self, workshop: &str, share: &str) -> Result<bool, Trouble> {
                let done = sqlx::query("DELETE FROM share WHERE workshop = $1 AND id = $2")
                    .bind(workshop)
                    .bind(share)
                    .execute(&self.pool)
                    .await?;
                Ok(done.rows_affected() > 0)
            }

            async fn photos(&self, workshop: &str) -> Result<Vec<Photo>, Trouble> {
                let rows: Vec<(String, i64)> = sqlx::query_as(
                    "SELECT name, CAST(LENGTH(body) AS BIGINT) FROM photo \
                     WHERE workshop = $1 ORDER BY name",
                )
                .bind(workshop)
                .fetch_all(&self.pool)
                .await?;
                Ok(rows.into_iter().map(photo).collect())
            }

            async fn photo(&self, workshop: &str, name: &str) -> Result<Option<Vec<u8>>, Trouble> {
                Ok(
                    sqlx::query_scalar("SELECT body FROM photo WHERE workshop = $1 AND name = $2")
                        .bind(workshop)
                        .bind(name)
                        .fetch_optional(&self.pool)
                        .await?,
                )
            }

            async fn keep_photo(
                &self,
                workshop: &str,
                name: &str,
                file: &[u8],
            ) -> Result<bool, Trouble> {
                let mut transaction = $begin(&self.pool).await?;
                // Two that come at once are counted one after the other.
                $turn(&mut *transaction, std::iter::once(workshop)).await?;
                let beside: Vec<(String, i64)> = sqlx::query_as(
                    "SELECT name, CAST(LENGTH(body) AS BIGINT) FROM photo \
                     WHERE workshop = $1 AND name <> $2",
                )
                .bind(workshop)
                .bind(name)
                .fetch_all(&mut *transaction)
                .await?;
                let beside = beside.into_iter().map(|row| photo(row).bytes);
                if !has_room_for(file.len() as u64, beside) {
                    return Ok(false);
                }
                sqlx::query(
                    "INSERT INTO photo (workshop, name, body) VALUES ($1, $2, $3) \
                     ON CONFLICT (workshop, name) DO NOTHING",
                )
                .bind(workshop)
                .bind(name)
                .bind(file)
                .execute(&mut *transaction)
                .await?;
                transaction.commit().await?;
                Ok(true)
            }

            async fn forget_photo(&self, workshop: &str, name: &str) -> Result<bool, Trouble> {
                let done = sqlx::query("DELETE FROM photo WHERE workshop = $1 AND name = $2")
                    .bind(workshop)
                    .bind(name)
                    .execute(&self.pool)
                    .await?;
                Ok(done.rows_affected() > 0)
            }

            async fn taken(&self, workshop: &str) -> Result<i64, Trouble> {
                Ok(sqlx::query_scalar(
                    "SELECT CAST(COALESCE(SUM(LENGTH(body)), 0) AS BIGINT) FROM ( \
                     SELECT body FROM change WHERE workshop = $1 \
                     UNION ALL SELECT body FROM whole WHERE workshop = $1 \
                     UNION ALL SELECT body FROM photo WHERE workshop = $1) AS bodies",
                )
                .bind(workshop)
                .fetch_one(&self.pool)
                .await?)
            }

            async fn disk(&self) -> Option<Disk> {
                self.own_disk()
            }

            async fn close(&self) {
                self.pool.close().await;
            }

            async fn check(&self) -> Result<(), Trouble> {
                self.sound().await
            }

            async fn backup(&self, to: &Path) -> Result<(), Trouble> {
                self.copy(to).await
            }

            async fn listen(&self) -> Result<Option<mpsc::Receiver<News>>, Trouble> {
                self.hear().await
            }
        }

        impl $store {
            /// Makes the tables that are missing, one step in one transaction.
            async fn migrate(&self, blob: &str) -> Result<(), Trouble> {
                let mut transaction = $begin(&self.pool).await?;
                sqlx::query("CREATE TABLE IF NOT EXISTS step (number BIGINT PRIMARY KEY)")
                    .execute(&mut *transaction)
                    .await?;
                let done: i64 = sqlx::query_scalar("SELECT COUNT(*) FROM step")
                    .fetch_one(&mut *transaction)
                    .await?;
                let done = usize::try_from(done).unwrap_or(usize::MAX);
                if done > STEPS.len() {
                    return Err(Trouble::Newer);
                }
                for (number, step) in (0_i64..).zip(STEPS).skip(done) {
                    for statement in step {
                        let statement = statement.replace("BLOB", blob);
                        sqlx::query(sqlx::AssertSqlSafe(statement))
                            .execute(&mut *transaction)
                            .await?;
                    }
                    sqlx::query("INSERT INTO step (number) VALUES ($1)")
                        .bind(number)
                        .execute(&mut *transaction)
                        .await?;
                }
                Ok(transaction.commit().await?)
            }
        }
    };
}
pub(super) use store;

use super::{Device, Kept, Photo, Share};

pub(super) fn kept((number, document, body): (i64, String, Vec<u8>)) -> Kept {
    Kept {
        number,
        document,
        update: body.into(),
    }
}

pub(super) fn device(
    (id, workshop, name, made, seen, revoked): (String, String, String, i64, i64, i64),
) -> Device {
    Device {
        id,
        workshop,
        name,
        made,
        seen,
        revoked: revoked != 0,
    }
}

pub(super) fn share((id, workshop, document, made): (String, String, String, i64)) -> Share {
    Share {
        id,
        workshop,
        document,
        made,
    }
}

pub(super) fn photo((name, bytes): (String, i64)) -> Photo {
    Photo {
        name,
        bytes: u64::try_from(bytes).unwrap_or_default(),
    }
}
