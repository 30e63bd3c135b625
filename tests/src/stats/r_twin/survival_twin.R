# SPDX-License-Identifier: MIT
# Reads lives (entry, exit, event, group) and prints what R survival makes of them, one "name value" a line.
suppressPackageStartupMessages(library(survival))
lives <- read.csv(commandArgs(trailingOnly = TRUE)[1])
say <- function(name, values) for (v in values) cat(name, sprintf("%.15g", v), "\n")

truncated <- any(lives$entry > 0)
fit <- survfit(Surv(entry, exit, event) ~ 1, data = lives, conf.type = "log-log")
failed <- fit$n.event > 0
say("time", fit$time[failed])
say("at_risk", fit$n.risk[failed])
say("survival", fit$surv[failed])
say("error", fit$surv[failed] * fit$std.err[failed])
say("lower", fit$lower[failed])
say("upper", fit$upper[failed])
median <- summary(fit)$table
say("median", median["median"])
say("median_lower", median["0.95LCL"])
say("median_upper", median["0.95UCL"])

# survdiff takes no late entry; the score test of a Cox model does, and is the log-rank test without ties
cox <- coxph(Surv(entry, exit, event) ~ factor(group), data = lives, ties = "exact")
say("log_rank", cox$score)

if (!truncated) {
    say("survdiff", survdiff(Surv(exit, event) ~ group, data = lives)$chisq)
    weibull <- survreg(Surv(exit, event) ~ 1, data = lives, dist = "weibull")
    say("shape", 1 / weibull$scale)
    say("scale", exp(coef(weibull)))
    say("log_likelihood", weibull$loglik[2])
    say("log_scale_error", sqrt(weibull$var[1, 1]))
    say("log_shape_error", sqrt(weibull$var[2, 2]))
    both <- survreg(Surv(exit, event) ~ factor(group), data = lives, dist = "weibull")
    say("common_shape", 1 / both$scale)
    say("common_log_likelihood", both$loglik[2])
    lognormal <- survreg(Surv(exit, event) ~ 1, data = lives, dist = "lognormal")
    say("log_mean", coef(lognormal))
    say("log_sigma", lognormal$scale)
    say("lognormal_log_likelihood", lognormal$loglik[2])
}
