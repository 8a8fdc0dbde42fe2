// The fit against a general library: GSL's multifit nonlinear least squares on the same residuals, with its
// own derivatives by differences of the full calculation.
#include "engine/belief/calibration.h"
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
        gsl_vector_set(f, problem.parameters() + 1 + o, (predicted[o] - seen.value) / seen.sigma);
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
        for (std::size_t u = 0; u < most_unknowns; ++u) {
            const int place = problem.playback.unknowns().columns.of[u];
            if (place < 0)
                continue;
            const auto i = static_cast<std::size_t>(place);
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
