"""The steps that brought the record to its present shape; a step that was released is never changed."""
