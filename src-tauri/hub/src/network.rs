//! The network that a request comes from, by which strangers are counted.

use std::net::{IpAddr, Ipv4Addr, Ipv6Addr};

/// A network: an IPv4 address, or the first half of an IPv6 address, since whoever
/// has one of those has all the others with the same half.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Network(IpAddr);

impl Network {
    /// Counted for those whose address is not known.
    pub const UNKNOWN: Self = Self(IpAddr::V4(Ipv4Addr::UNSPECIFIED));
}

impl From<IpAddr> for Network {
    fn from(address: IpAddr) -> Self {
        Self(match address.to_canonical() {
            IpAddr::V4(address) => address.into(),
            IpAddr::V6(address) => {
                let [a, b, c, d, ..] = address.segments();
                Ipv6Addr::new(a, b, c, d, 0, 0, 0, 0).into()
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn network(address: &str) -> Option<Network> {
        address.parse::<IpAddr>().ok().map(Network::from)
    }

    #[test]
    fn an_ipv6_network_is_one_whatever_its_second_half() {
        let one = network("2001:db8:1:2::1");
        assert!(one.is_some());
        assert_eq!(one, network("2001:db8:1:2:ffff:ffff:ffff:ffff"));
        assert_ne!(one, network("2001:db8:1:3::1"));
        assert_eq!(network("192.0.2.7"), network("::ffff:192.0.2.7"));
        assert_ne!(network("192.0.2.7"), network("192.0.2.8"));
    }
}
