"""The gate's rules, one idea a file; none imports another."""
