//! Every command through the program itself: what it prints, where, and with which exit code.

mod details;
mod floor;
mod output;
mod plot;
mod reviewer;
mod route;
mod sanity;
mod size;
mod verdict;
mod year;
