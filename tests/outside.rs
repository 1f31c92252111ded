//! Poreline checked against the outside: closed forms, published figures, and general-purpose
//! libraries. Where a figure comes from stands beside the check that uses it.

mod outside {
    mod colour;
    mod crofton;
    mod digitised;
    mod drawing;
    mod edges;
    mod fit;
    mod grains;
    mod handbooks;
    mod lattices;
    mod levels;
    mod properties;
    mod regions;
    mod sampling;
    mod series;
    mod shapes;
    mod shares;
    mod stated;
    mod support;
    mod univariate;
}
