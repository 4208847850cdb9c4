"""The joints, one module a kind.  A kind is added by adding its module and naming it in `KINDS`."""
