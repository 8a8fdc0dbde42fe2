// Bends against a general library's solver: the bridge's angle and the finger's way as two unknowns, solved
// together by GSL's hybrid method (gsl_multiroot_fsolver_hybrids) from forces as vectors. Of the engine only
// the numbers of the guitar are taken, none of its functions.
#include "engine/whatif/bend.h"
#include "tests/support.h"

#include <gsl/gsl_multiroots.h>
#include <gsl/gsl_vector.h>

#include <array>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

struct BentString {
    const Stand& stand;
    std::size_t bent;
    double cents;

    struct Place {
        double x, y;
    };
    static Place turned(double x, double y, double angle) {
        return {x * std::cos(angle) + y * std::sin(angle), -x * std::sin(angle) + y * std::cos(angle)};
    }
    Place saddle(std::size_t i, double angle) const {
        const StringOnBridge& s = stand.assembly.strings[i];
        return turned(-s.saddle_setback_m, s.saddle_height_m, angle);
    }
    double nut_x(std::size_t i) const {
        return stand.assembly.strings[i].scale_m - stand.assembly.strings[i].saddle_setback_m;
    }
    double open(std::size_t i, double angle) const {
        const Place p = saddle(i, angle);
        return std::hypot(nut_x(i) - p.x, stand.assembly.strings[i].saddle_height_m - p.y);
    }
    // Half-way: both parts bowed alike.
    double bowed(double angle, double way) const { return 2.0 * std::hypot(0.5 * open(bent, angle), way); }
    double tension(std::size_t i, double angle, double way) const {
        const StringOnBridge& s = stand.assembly.strings[i];
        const double length = (i == bent ? bowed(angle, way) : open(i, angle)) + s.dead_m;
        return s.mechanics.axial_stiffness_n * (length / stand.lengths_m[i] - 1.0);
    }
    double torque(double angle, double way) const {
        double sum = 0.0;
        for (std::size_t i = 0; i < stand.assembly.strung().size(); ++i) {
            const Place p = saddle(i, angle);
            const double t = tension(i, angle, way), l = open(i, angle);
            const double fx = t * (nut_x(i) - p.x) / l,
                         fy = t * (stand.assembly.strings[i].saddle_height_m - p.y) / l;
            sum += p.y * fx - p.x * fy;
        }
        const Bridge& b = stand.assembly.bridge;
        const Place hole = turned(-b.block_setback_m, -b.block_depth_m, angle);
        for (const SpringOnBridge& s : stand.assembly.sprung()) {
            const double dx = stand.claw.x_m - hole.x, dy = -stand.assembly.claw.depth_m - hole.y,
                         dz = s.hook_z_m - s.hole_z_m;
            const double l = std::sqrt(dx * dx + dy * dy + dz * dz);
            const double f = s.spring.initial_tension_n + s.spring.rate_n_m * (l - s.spring.free_length_m);
            sum += hole.y * f * dx / l - hole.x * f * dy / l;
        }
        return sum;
    }
    // The bent half sounds like an open string with the pitch raised, its length in proportion.
    double off_pitch(double angle, double way) const {
        const StringOnBridge& s = stand.assembly.strings[bent];
        const double length = open(bent, angle), t = tension(bent, angle, way);
        const double stiff = t + 9.8696044010893586 * s.mechanics.bending_stiffness_n_m2 / (length * length);
        const double f =
            std::sqrt(stiff * (1.0 + t / s.mechanics.axial_stiffness_n) / s.mechanics.unit_weight_kg_m) /
            (2.0 * length);
        return 1200.0 * std::log2(f / s.frequency_hz * length / bowed(angle, way)) - cents;
    }
};

int residuals(const gsl_vector* at, void* data, gsl_vector* out) {
    const auto& problem = *static_cast<const BentString*>(data);
    const double angle = gsl_vector_get(at, 0), way = gsl_vector_get(at, 1) * 0.01;
    gsl_vector_set(out, 0, problem.torque(angle, way));
    gsl_vector_set(out, 1, 0.01 * problem.off_pitch(angle, way));
    return GSL_SUCCESS;
}

std::array<double, 2> solved(BentString& problem) {
    gsl_multiroot_function function{residuals, 2, &problem};
    gsl_vector* start = gsl_vector_alloc(2);
    gsl_vector_set(start, 0, problem.stand.angle_rad);
    gsl_vector_set(start, 1, 1.0);
    gsl_multiroot_fsolver* solver = gsl_multiroot_fsolver_alloc(gsl_multiroot_fsolver_hybrids, 2);
    gsl_multiroot_fsolver_set(solver, &function, start);
    for (int i = 0; i < 200 && gsl_multiroot_test_residual(solver->f, 1e-11) == GSL_CONTINUE; ++i)
        if (gsl_multiroot_fsolver_iterate(solver) != GSL_SUCCESS)
            break;
    const std::array<double, 2> found = {gsl_vector_get(solver->x, 0), gsl_vector_get(solver->x, 1) * 0.01};
    CHECK(gsl_multiroot_test_residual(solver->f, 1e-9) == GSL_SUCCESS);
    gsl_multiroot_fsolver_free(solver);
    gsl_vector_free(start);
    return found;
}

} // namespace

TEST_CASE("bends agree with a general library's solver of angle and finger together") {
    const Stand stand = standing_now(light_set_level());
    for (int string = 0; string < 6; ++string)
        for (const double cents : {100.0, 200.0, 300.0}) {
            BentString problem{stand, static_cast<std::size_t>(string), cents};
            const auto [angle, way] = solved(problem);
            const Bent bent = bend(stand, string, cents);
            INFO("string at place " << string << " by " << cents);
            CHECK(bent.moved.angle_rad == Approx(angle).epsilon(1e-4));
            CHECK(bent.travel_m == Approx(way).epsilon(1e-4));
            for (std::size_t i = 0; i < 6; ++i) {
                if (static_cast<int>(i) == string)
                    continue;
                const StringOnBridge& s = stand.assembly.strings[i];
                const double length = problem.open(i, angle), t = problem.tension(i, angle, way);
                const double f =
                    std::sqrt(
                        (t + 9.8696044010893586 * s.mechanics.bending_stiffness_n_m2 / (length * length)) *
                        (1.0 + t / s.mechanics.axial_stiffness_n) / s.mechanics.unit_weight_kg_m) /
                    (2.0 * length);
                CHECK(*bent.moved.cents[i] == Approx(1200.0 * std::log2(f / s.frequency_hz)).margin(0.01));
            }
        }
}
