// The fit against a general library: GSL's multifit nonlinear least squares on the same residuals, with its
// own derivatives by differences of the full calculation.
#include "engine/belief/calibration.h"
#include "engine/belief/fit.h"
#include "tests/support.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_multifit_nlinear.h>

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

struct LeastSquares {
    Belief prior;
    Playback playback;
    Standing standing;
    bool robust = false; // Huber's loss, as the square of a residual
    explicit LeastSquares(const Setup& setup) : prior(setup), playback(prior), standing(prior) {}
    std::size_t parameters() const { return playback.width(); }
    std::size_t residuals() const { return parameters() + 1 + playback.observations().size(); }
};

// The parameters are a row of unknowns but for the visits: of them, the steps from one to the next.
int residuals_of(const gsl_vector* x, void* data, gsl_vector* f) {
    LeastSquares& problem = *static_cast<LeastSquares*>(data);
    std::vector<double> row(problem.parameters());
    double walked = 0.0;
    const std::vector<std::size_t>& visits = problem.playback.unknowns().visits;
    for (std::size_t i = 0; i < problem.parameters(); ++i) {
        const double value = gsl_vector_get(x, i);
        gsl_vector_set(f, i, value); // the prior
        const bool visit = std::find(visits.begin(), visits.end(), i) != visits.end();
        row[i] = visit ? walked += value : value;
    }
    std::vector<double> predicted;
    const auto stands = problem.standing.residual(problem.playback.deviations(row));
    if (!stands || !problem.playback.play(row, Settling::search, predicted))
        return GSL_EFAILED;
    gsl_vector_set(f, problem.parameters(), *stands);
    for (std::size_t o = 0; o < predicted.size(); ++o) {
        const Observation& seen = problem.playback.observations()[o];
        double off = (predicted[o] - seen.value) / seen.sigma;
        if (problem.robust && std::abs(off) > outlier_sigmas)
            off = std::copysign(std::sqrt(outlier_sigmas * (2.0 * std::abs(off) - outlier_sigmas)), off);
        gsl_vector_set(f, problem.parameters() + 1 + o, off);
    }
    return GSL_SUCCESS;
}

struct Minimum {
    std::vector<double> x;      // as in residuals_of
    std::vector<double> sigmas; // of each
    double half_chi2 = 0.0;
};

Minimum minimum_of(LeastSquares& problem) {
    gsl_multifit_nlinear_parameters how = gsl_multifit_nlinear_default_parameters();
    how.fdtype = GSL_MULTIFIT_NLINEAR_CTRDIFF;
    how.h_df = 1e-2; // times x: small against a spread, large against what a balance is known to
    gsl_multifit_nlinear_workspace* work = gsl_multifit_nlinear_alloc(
        gsl_multifit_nlinear_trust, &how, problem.residuals(), problem.parameters());
    gsl_multifit_nlinear_fdf fdf{};
    fdf.f = residuals_of;
    fdf.n = problem.residuals();
    fdf.p = problem.parameters();
    fdf.params = &problem;
    gsl_vector* start = gsl_vector_calloc(problem.parameters());
    gsl_multifit_nlinear_init(start, &fdf, work);
    int info = 0;
    REQUIRE(gsl_multifit_nlinear_driver(200, 1e-10, 1e-10, 0.0, nullptr, nullptr, &info, work) ==
            GSL_SUCCESS);
    gsl_matrix* covariance = gsl_matrix_alloc(problem.parameters(), problem.parameters());
    gsl_multifit_nlinear_covar(gsl_multifit_nlinear_jac(work), 0.0, covariance);
    double chi2 = 0.0;
    gsl_blas_ddot(gsl_multifit_nlinear_residual(work), gsl_multifit_nlinear_residual(work), &chi2);
    Minimum minimum{{}, {}, 0.5 * chi2};
    for (std::size_t i = 0; i < problem.parameters(); ++i) {
        minimum.x.push_back(gsl_vector_get(gsl_multifit_nlinear_position(work), i));
        minimum.sigmas.push_back(std::sqrt(gsl_matrix_get(covariance, i, i)));
    }
    gsl_matrix_free(covariance);
    gsl_vector_free(start);
    gsl_multifit_nlinear_free(work);
    return minimum;
}

} // namespace

TEST_CASE("the fit agrees with a general least-squares library, in its values and its covariance") {
    Setup with_springs = example("small-sag");
    with_springs.now.spring_mm = std::vector<double>{70.0, 71.0, 70.5};
    for (Setup setup : {example("three-readings-in"), with_springs}) {
        const Calibration ours = calibrate(setup);
        REQUIRE(ours.converged);
        LeastSquares problem(setup);
        REQUIRE_FALSE(problem.playback.observations().empty());
        const Minimum theirs = minimum_of(problem);
        CHECK(ours.half_chi2 == Approx(theirs.half_chi2).epsilon(1e-5));
        for (std::size_t u = 0; u < most_unknowns; ++u) {
            const int place = problem.playback.unknowns().columns.of[u];
            if (place < 0)
                continue;
            const auto i = static_cast<std::size_t>(place);
            INFO("unknown " << u);
            CHECK(ours.belief.mean()[u] == Approx(theirs.x[i]).margin(1e-4));
            CHECK(ours.belief.sigma_of(static_cast<Unknown>(u)) == Approx(theirs.sigmas[i]).epsilon(1e-5));
        }
    }
}

// Their cost is in the hundreds. Beyond Huber's bend the steps close in slowly: the last ones are far below
// what anything says of the guitar, though not of that cost's last digits.
TEST_CASE("readings that contradict each other by far are fitted as by a general least-squares library") {
    for (const double size_cents : {42.0, 45.0, 50.0, 55.0, 60.0, 65.0}) {
        INFO(size_cents);
        Setup setup = example("three-readings-in");
        double turn = 0.0;
        for (Reading& entry : setup.log)
            if (entry.cents)
                for (std::optional<double>& read : *entry.cents)
                    if (read)
                        *read += size_cents * std::cos(turn += 2.0);
        LeastSquares problem(setup);
        problem.robust = true;
        const Minimum theirs = minimum_of(problem);
        Fit ours(problem.prior);
        CHECK(ours.run());
        CHECK(ours.cost() > 100.0);
        CHECK(ours.cost() == Approx(theirs.half_chi2).epsilon(1e-6));
        for (std::size_t u = 0; u < most_unknowns; ++u)
            if (const int place = problem.playback.unknowns().columns.of[u]; place >= 0) {
                INFO("unknown " << u);
                const auto i = static_cast<std::size_t>(place);
                CHECK(ours.at()[i] == Approx(theirs.x[i]).margin(1e-2));
            }
    }
}
