"""Commands: they read what is asked, ask the engine, and print. No rule of the trade lives here."""
