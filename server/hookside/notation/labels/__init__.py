"""Third stage: what a course is called, and the courses its words point to."""
