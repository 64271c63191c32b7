"""The weather to come, asked of an open service where a setting names one; nothing here is stored or relied on."""
