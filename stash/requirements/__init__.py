"""How much yarn a design takes of each colour, with its spread and its source.

`design/` what is to be made, laid out as rows · `yarn/` what that takes, by the most trusted source
· `fit/` what so much yarn makes of it · `lasting/` whether a ball lasts. Way in:
`yarn.design_context.DesignContext.need`, behind it `yarn.estimate.need_of`. What is to be known of
an answer comes as notes (a kind and facts); rendering has their words.

May import: trade, measures, errors.
"""
