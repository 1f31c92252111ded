//! Poreline checked against the outside: closed forms, published figures, and general-purpose
//! libraries. Where a figure comes from stands beside the check that uses it.

mod outside {
    mod fit;
    mod lattices;
    mod properties;
    mod regions;
    mod shapes;
    mod support;
}
