"""The open project as the screens use it, and the work done behind them."""
