//! Standing orders and what takes their place, day by day.

use crate::{orders, reported};

const STANDING: &str = "weekday,customer,product,quantity,from,until\n\
                        Thursday,Quay café,Rye loaf,20,,\n\
                        fri,Quay café,Rye loaf,24,,\n\
                        SATURDAY,Quay café,Rye loaf,30,2026-11-28,\n\
                        Sat,Inn,Rye loaf,7,,2026-11-27\n\
                        Sunday,Inn,Tin loaf,8,2026-11-01,2026-11-29\n";

/// What the orders come to, a line for each day, customer and product.
fn listed(ordinary: &str, exceptions: &str) -> String {
    let headed = |lines: &str| format!("delivery day,customer,product,quantity\n{lines}");
    let orders = orders(
        &[("orders.csv", &headed(ordinary))],
        &[("standing.csv", STANDING)],
        &[("exceptions.csv", &headed(exceptions))],
    );
    assert!(orders.is_complete(), "{}", reported(&orders.problems()));
    let by_customer: u64 = orders.by_customer.values().map(|pieces| pieces.count()).sum();
    assert_eq!(by_customer, orders.demand.iter().map(|(.., pieces)| pieces.count()).sum::<u64>());
    let lines = orders.by_customer.iter();
    let lines = lines.map(|((day, customer, product), pieces)| {
        format!("{day} {customer}, product {}: {pieces}\n", product.index())
    });
    lines.collect()
}

#[test]
fn orders_stand_on_their_days_between_first_and_last() {
    assert_eq!(
        listed("", ""),
        "2026-11-26 Quay café, product 0: 20\n\
         2026-11-27 Quay café, product 0: 24\n\
         2026-11-28 Quay café, product 0: 30\n\
         2026-11-29 Inn, product 1: 8\n"
    );
}

#[test]
fn an_exception_takes_the_place_and_0_calls_off() {
    let exceptions =
        "2026-11-27,QUAY  café,Rye loaf,4\n2026-11-29,Inn,Tin loaf,0\n2026-12-25,Inn,Tin loaf,0\n";
    assert_eq!(
        listed("", exceptions),
        "2026-11-26 Quay café, product 0: 20\n\
         2026-11-27 Quay café, product 0: 4\n\
         2026-11-28 Quay café, product 0: 30\n"
    );
}

#[test]
fn an_order_for_the_day_comes_on_top_of_what_stands() {
    let ordinary =
        "2026-11-26,quay café,Rye loaf,1\n2026-11-26,Inn,Rye loaf,2\n2026-12-24,Inn,Rye loaf,500\n";
    assert!(listed(ordinary, "").starts_with(
        "2026-11-26 Inn, product 0: 2\n\
         2026-11-26 quay café, product 0: 21\n"
    ));
}
