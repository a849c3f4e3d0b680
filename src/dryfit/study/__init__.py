"""What a study is, the register of them, and what runs them; no study is known here."""
