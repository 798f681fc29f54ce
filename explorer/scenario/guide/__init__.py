"""Plain questions, and the scenario that follows from their answers.

What an answer stands for is in tables, each figure with its source: `places` and `jobs`.
`questions` says what is asked and when, `made` builds the scenario and `assumptions` says all that
was assumed. Both can be shown in any language; a scenario is English, like every file.
"""
