"""Questions about the receiver, its checks and the ident."""
