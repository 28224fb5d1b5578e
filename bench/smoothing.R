# Times R's smooth.spline on the readings of a file; says ms a run and how many knots.
args <- commandArgs(trailingOnly = TRUE)
d <- scan(args[1], what = list(x = 0, y = 0), sep = ",", quiet = TRUE)
times <- replicate(as.integer(args[2]), {
  start <- proc.time()[["elapsed"]]
  fit <<- smooth.spline(d$x, d$y)
  1000 * (proc.time()[["elapsed"]] - start)
})
knots <- length(unique(fit$fit$knot))
cat(median(times), min(times), max(times), knots, "\n")
