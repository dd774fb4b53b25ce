//! Numbers for whoever runs the hub, in the Prometheus text format.

use crate::store::{Store, Stored, Totals};
use axum::http::StatusCode;
use prometheus_client::encoding::text::encode;
use prometheus_client::metrics::counter::Counter;
use prometheus_client::metrics::family::Family;
use prometheus_client::metrics::gauge::Gauge;
use prometheus_client::metrics::histogram::{Histogram, exponential_buckets};
use prometheus_client::registry::Registry;
use std::sync::Arc;
use std::time::Duration;

type Labels = Vec<(&'static str, String)>;

/// The numbers of one hub process.
#[derive(Clone)]
pub struct Metrics {
    registry: Arc<Registry>,
    asked: Family<Labels, Counter>,
    seconds: Histogram,
    strangers: Counter,
    refused: Family<Labels, Counter>,
    totals: Family<Labels, Gauge>,
}

impl Default for Metrics {
    fn default() -> Self {
        let mut registry = Registry::with_prefix("headwalk_hub");
        let asked = Family::<Labels, Counter>::default();
        // From 0.5 ms to 8 s.
        let seconds = Histogram::new(exponential_buckets(0.0005, 2.0, 15));
        let strangers = Counter::default();
        let refused = Family::<Labels, Counter>::default();
        let totals = Family::<Labels, Gauge>::default();
        registry.register(
            "questions",
            "Questions by kind and HTTP status",
            asked.clone(),
        );
        registry.register(
            "answer_seconds",
            "Time from a question's arrival to its answer",
            seconds.clone(),
        );
        registry.register(
            "strangers",
            "Requests without a valid token",
            strangers.clone(),
        );
        registry.register(
            "refused",
            "Requests and connections that a limit turned away, by cause",
            refused.clone(),
        );
        registry.register(
            "stored",
            "Crews, phones, changes and photos held",
            totals.clone(),
        );
        Self {
            registry: Arc::new(registry),
            asked,
            seconds,
            strangers,
            refused,
            totals,
        }
    }
}

impl Metrics {
    /// Counts an answered question.
    pub(crate) fn asked(&self, kind: &'static str, status: StatusCode, took: Duration) {
        let labels = vec![
            ("kind", kind.to_owned()),
            ("status", status.as_str().to_owned()),
        ];
        self.asked.get_or_create(&labels).inc();
        self.seconds.observe(took.as_secs_f64());
    }

    /// Counts a request without a valid token.
    pub(crate) fn stranger(&self) {
        self.strangers.inc();
    }

    /// Counts what a limit turned away.
    pub(crate) fn refused(&self, cause: &'static str) {
        let labels = vec![("cause", cause.to_owned())];
        self.refused.get_or_create(&labels).inc();
    }

    /// All numbers as text.
    ///
    /// # Errors
    /// When the store fails.
    pub async fn text(&self, store: &dyn Store) -> Stored<String> {
        let Totals {
            crews,
            devices,
            changes,
            photos,
        } = store.totals().await?;
        let held = [
            ("crews", crews),
            ("phones", devices),
            ("changes", changes),
            ("photos", photos),
        ];
        for (what, count) in held {
            let labels = vec![("what", what.to_owned())];
            self.totals
                .get_or_create(&labels)
                .set(i64::try_from(count).unwrap_or(i64::MAX));
        }
        let mut text = String::new();
        // Writing to a String does not fail.
        let _ = encode(&mut text, &self.registry);
        Ok(text)
    }
}
