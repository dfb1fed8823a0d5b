"""A changed tank: its answers and draws, the severity of its checks, before and after."""
