"""What this shop has: machines, holding devices, tools, gauges, each with its errors."""
