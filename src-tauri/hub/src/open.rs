//! From what the operator writes to stores.

use crate::photos::Photos;
use crate::store::postgres::PostgresStore;
use crate::store::sqlite::SqliteStore;
use crate::store::{Quotas, Store, StoreFault, Stored};
use std::path::Path;
use std::sync::Arc;

/// The store at `place`, with these quotas for its members: a PostgreSQL URL, or the
/// path of an SQLite file, made where absent.
///
/// # Errors
/// When it cannot be reached or is no hub's.
pub async fn store(place: &str, quotas: Quotas) -> Stored<Arc<dyn Store>> {
    if place.starts_with("postgres://") || place.starts_with("postgresql://") {
        let store = PostgresStore::connect(place).await?;
        Ok(Arc::new(store.with_quotas(quotas)))
    } else if place.contains("://") {
        Err(StoreFault::Failed(format!(
            "{place}: give the path of a file, or postgres://USER@HOST/DATABASE"
        )))
    } else {
        let store = SqliteStore::open(Path::new(place))?;
        Ok(Arc::new(store.with_quotas(quotas)))
    }
}

/// The photo store at `place`: `s3://BUCKET/PATH`, or a folder, made where absent.
///
/// # Errors
/// When it cannot be used.
pub fn photos(place: &str) -> Stored<Photos> {
    if place.starts_with("s3://") {
        in_s3(place)
    } else if place.contains("://") {
        Err(StoreFault::Failed(format!(
            "{place}: give a folder, or s3://BUCKET/PATH"
        )))
    } else {
        Photos::in_folder(Path::new(place))
    }
}

/// Keys, region and the address of an S3-compatible server come from the usual
/// `AWS_...` variables, so that no secret stands in a command line.
#[cfg(feature = "s3")]
fn in_s3(place: &str) -> Stored<Photos> {
    use object_store::aws::AmazonS3Builder;
    use object_store::path::Path as ObjectPath;
    // Fails only when one is installed already, which is as good.
    let _ = rustls::crypto::ring::default_provider().install_default();
    let rest = place.trim_start_matches("s3://");
    let (bucket, under) = rest.split_once('/').unwrap_or((rest, ""));
    let objects = AmazonS3Builder::from_env()
        .with_bucket_name(bucket)
        .build()?;
    Ok(Photos::in_objects(
        Arc::new(objects),
        ObjectPath::from(under),
    ))
}

#[cfg(not(feature = "s3"))]
fn in_s3(place: &str) -> Stored<Photos> {
    Err(StoreFault::Failed(format!(
        "{place}: this program was built without S3; give a folder"
    )))
}
