// The fit against a general library: GSL's multifit nonlinear least squares on the same residuals, with its
// own derivatives by differences of the full calculation.
#include "engine/belief/calibration.h"
#include "tests/support.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_multifit_nlinear.h>

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

struct LeastSquares {
    Belief prior;
    Playback playback;
    std::vector<int> unknowns;
    explicit LeastSquares(const Setup& setup) : prior(setup), playback(prior) {
        for (int u = 0; u < most_unknowns; ++u)
            if (prior.used(u) && u != static_cast<int>(Unknown::screws_now))
                unknowns.push_back(u);
    }
    std::size_t parameters() const { return unknowns.size() + static_cast<std::size_t>(playback.visits()); }
    std::size_t residuals() const { return parameters() + playback.observations().size(); }
};

int residuals_of(const gsl_vector* x, void* data, gsl_vector* f) {
    LeastSquares& problem = *static_cast<LeastSquares*>(data);
    std::vector<double> row(problem.parameters()); // visits first, where the screws stand by then
    double walked = 0.0;
    std::size_t visit = 0;
    for (std::size_t i = 0; i < problem.parameters(); ++i) {
        const double value = gsl_vector_get(x, i);
        gsl_vector_set(f, i, value); // the prior
        if (i < problem.unknowns.size())
            row[static_cast<std::size_t>(
                problem.playback.columns().of[static_cast<std::size_t>(problem.unknowns[i])])] = value;
        else
            row[visit++] = walked += value;
    }
    std::vector<double> predicted;
    if (!problem.playback.play(row, Settling::search, predicted))
        return GSL_EFAILED;
    for (std::size_t o = 0; o < predicted.size(); ++o) {
        const Observation& seen = problem.playback.observations()[o];
        gsl_vector_set(f, problem.parameters() + o, (predicted[o] - seen.value) / seen.sigma);
    }
    return GSL_SUCCESS;
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
        const gsl_vector* x = gsl_multifit_nlinear_position(work);
        gsl_matrix* covariance = gsl_matrix_alloc(problem.parameters(), problem.parameters());
        gsl_multifit_nlinear_covar(gsl_multifit_nlinear_jac(work), 0.0, covariance);
        double chi2 = 0.0;
        gsl_blas_ddot(gsl_multifit_nlinear_residual(work), gsl_multifit_nlinear_residual(work), &chi2);
        CHECK(ours.half_chi2 == Approx(0.5 * chi2).epsilon(1e-5));
        for (std::size_t i = 0; i < problem.unknowns.size(); ++i) {
            const auto u = static_cast<std::size_t>(problem.unknowns[i]);
            INFO("unknown " << u);
            CHECK(ours.belief.mean()[u] == Approx(gsl_vector_get(x, i)).margin(1e-4));
            CHECK(ours.belief.sigma_of(static_cast<Unknown>(u)) ==
                  Approx(std::sqrt(gsl_matrix_get(covariance, i, i))).epsilon(1e-5));
        }
        gsl_matrix_free(covariance);
        gsl_vector_free(start);
        gsl_multifit_nlinear_free(work);
    }
}
