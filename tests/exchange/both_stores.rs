//! Stories that are told on both of the hub's stores.

use crate::cluster::Cluster;
use crate::hub_here::Kept;

/// A story and its name. It asks for a place of its own for each hub that it starts.
pub type Story = (&'static str, fn(&mut dyn FnMut() -> Kept));

pub fn on_sqlite(stories: &[Story]) {
    for (name, story) in stories {
        println!("{name}");
        story(&mut || Kept::Sqlite);
    }
}

pub fn on_postgresql(stories: &[Story]) {
    let cluster = Cluster::start();
    let mut databases = 0;
    for (name, story) in stories {
        println!("{name}");
        story(&mut || {
            databases += 1;
            Kept::Postgres(cluster.database(&format!("hub{databases}")))
        });
    }
}
