# Interval-censored log-normal fits by the survival package, for tests/learn/shop_belief_test.cpp.
# Run: Rscript fit.R   Writes coats.csv (made by R's own generator) and fits.csv beside it.
# Each set is one invented shop: a labelled range, the shop's deviate, coats whose stage was looked
# for at touch times. `scale` is the coats' own part of the log spread and is held fixed, as the
# program holds it; the fit is of the middle alone.
library(survival)

set.seed(20261130)
deviate_of_high <- qnorm(0.9)
shop_share <- 0.5
sets <- data.frame(
  set = 1:12,
  low_hours = c(4, 6, 1, 12, 0.5, 2, 4, 6, 1, 12, 3, 8),
  high_hours = c(24, 24, 3, 24, 1.5, 4, 24, 24, 3, 24, 4, 40),
  shop = c(0, 1, -1, 2, 0.5, -0.5, 1.5, -1.5, 2.5, 0.2, -2, 0.8),
  coats = c(5, 8, 10, 12, 20, 30, 40, 60, 80, 100, 200, 15)
)
coats <- NULL
fits <- NULL
for (i in sets$set) {
  row <- sets[i, ]
  spread <- log(row$high_hours / row$low_hours) / (2 * deviate_of_high)
  middle <- (log(row$low_hours) + log(row$high_hours)) / 2
  own <- spread * sqrt(1 - shop_share)
  hours <- exp(middle + spread * sqrt(shop_share) * row$shop + own * rnorm(row$coats))
  # Looked at three times around the middle of the label's range.
  tests <- exp(middle + spread * matrix(rnorm(3 * row$coats, sd = 1.2), ncol = 3))
  after <- apply(tests, 1, function(x) NA)
  not_by <- apply(tests, 1, function(x) NA)
  for (k in seq_len(row$coats)) {
    seen <- sort(tests[k, ])
    before <- seen[seen < hours[k]]
    later <- seen[seen >= hours[k]]
    not_by[k] <- if (length(before) == 0) NA else max(before)
    after[k] <- if (length(later) == 0) NA else min(later)
  }
  fit <- survreg(Surv(not_by, after, type = "interval2") ~ 1, dist = "lognormal", scale = own)
  coats <- rbind(coats, data.frame(set = i, not_by_hours = not_by, by_hours = after))
  fits <- rbind(fits, data.frame(
    set = i, low_hours = row$low_hours, high_hours = row$high_hours, coats = row$coats,
    log_middle = unname(coef(fit)), standard_error = sqrt(vcov(fit)[1, 1])))
}
# Writes a table below what it is and where it comes from.
write_table <- function(table, file, about) {
  writeLines(c(about, "# Source: survival_r"), file)
  suppressWarnings(write.table(format(table, digits = 10), file, append = TRUE, sep = ",",
                               row.names = FALSE, quote = FALSE))
}
write_table(coats, "coats.csv", "# Coats drawn by fit.R: a stage not reached by, and reached by.")
write_table(fits, "fits.csv", "# Their middles as survreg fits them, by fit.R.")
cat(R.version.string, "survival", as.character(packageVersion("survival")), "\n")
