"""The waiting: windows of readiness, the weather, drying, and when tile may follow."""
