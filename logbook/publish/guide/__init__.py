"""How a release is built: what to get, how parts are made, the steps."""
