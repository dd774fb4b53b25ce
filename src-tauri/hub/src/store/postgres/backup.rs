//! A backup of the database: everything at one moment, as an SQLite hub file
//! that can be served as it is.

use crate::store::{StoreFault, Stored, sqlite};
use deadpool_postgres::Object;
use futures_util::TryStreamExt;
use rusqlite::params_from_iter;
use rusqlite::types::Value;
use std::path::Path;
use tokio_postgres::types::{ToSql, Type};
use tokio_postgres::{IsolationLevel, Row};
use uuid::Uuid;

/// Tables and their columns, the named before those that name them.
const TABLES: &[(&str, &str)] = &[
    ("crew", "id, name, made_at"),
    ("person", "id, crew, name, role, made_at"),
    (
        "device",
        "id, person, name, token_hash, joined_at, seen_at, removed_at, key, series_made, bytes_stored",
    ),
    (
        "invitation",
        "id, crew, person, role, code_hash, made_at, ends_at, used_by",
    ),
    (
        "series",
        "id, crew, device, head, tag, owner, key, origin, origin_seq, origin_link, made_by",
    ),
    ("change", "series, seq, received_at, body"),
    ("seal", "series, seq, signature, link"),
    ("photo", "crew, name, size, have, whole_at, begun_by"),
];

pub(super) async fn write(client: &mut Object, to: &Path) -> Stored<()> {
    if to.exists() {
        return Err(StoreFault::Failed(format!(
            "{} exists already",
            to.display()
        )));
    }
    let tx = client
        .build_transaction()
        .isolation_level(IsolationLevel::RepeatableRead)
        .read_only(true)
        .start()
        .await?;
    let file = sqlite::open_writer(to)?;
    // One transaction for the whole file: a cut backup is an empty hub, not half of one.
    file.execute_batch("BEGIN")?;
    for (table, columns) in TABLES {
        let count = columns.split(',').count();
        let marks = vec!["?"; count].join(", ");
        let insert = format!("INSERT INTO {table} ({columns}) VALUES ({marks})");
        let nothing: [&(dyn ToSql + Sync); 0] = [];
        let select = format!("SELECT {columns} FROM {table}");
        let rows = tx.query_raw(&select, nothing).await?;
        futures_util::pin_mut!(rows);
        while let Some(row) = rows.try_next().await? {
            let values = (0..count)
                .map(|column| value(&row, column))
                .collect::<Stored<Vec<_>>>()?;
            file.prepare_cached(&insert)?
                .execute(params_from_iter(values))?;
        }
    }
    file.execute_batch("COMMIT")?;
    // Closed by hand, so that trouble with the last write is not lost.
    file.pragma_update_and_check(None, "journal_mode", "DELETE", |_| Ok(()))?;
    file.close().map_err(|(_, error)| StoreFault::from(error))
}

fn value(row: &Row, column: usize) -> Stored<Value> {
    let kind = row.columns().get(column).map(|column| column.type_());
    let value = match kind {
        Some(&Type::UUID) => row
            .get::<_, Option<Uuid>>(column)
            .map(|id| Value::Blob(id.as_bytes().to_vec())),
        Some(&Type::INT8) => row.get::<_, Option<i64>>(column).map(Value::Integer),
        Some(&Type::TEXT) => row.get::<_, Option<String>>(column).map(Value::Text),
        Some(&Type::BYTEA) => row.get::<_, Option<Vec<u8>>>(column).map(Value::Blob),
        _ => return Err(StoreFault::Failed("a column has an unknown type".into())),
    };
    Ok(value.unwrap_or(Value::Null))
}
