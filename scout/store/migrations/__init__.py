"""Every shape the tables ever had; imported only when a file is older than the program, or new."""
