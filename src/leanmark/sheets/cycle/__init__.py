"""A cycle on paper and on the phone: session sheets, floor sheet, overview, tape marks."""
