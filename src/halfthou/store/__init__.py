"""Files in and out: part, project, workshop and plan."""
