#include "tests/hearing/real_sounds.h"

#include "engine/hearing/wav.h"

#include <fftw3.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <numbers>
#include <utility>

namespace counterpull::test {

namespace {

constexpr double note_s = 4.0;
constexpr char soundfont[] = "/usr/share/sounds/sf2/FluidR3_GM.sf2";

// A standard MIDI file, format 0, 480 ticks a quarter of half a second: one note after the other.
std::string midi_of(int program, const std::vector<int>& keys) {
    std::string track;
    const auto byte = [&](int value) { track += static_cast<char>(value); };
    const auto wait = [&](int ticks) {
        byte(0x80 | (ticks >> 7 & 0x7F));
        byte(ticks & 0x7F);
    };
    wait(0), byte(0xC0), byte(program - 1);
    constexpr int held = static_cast<int>(0.9 * note_s * 960), pause = static_cast<int>(0.1 * note_s * 960);
    for (const int key : keys) {
        wait(0), byte(0x90), byte(key), byte(90);
        wait(held), byte(0x80), byte(key), byte(0);
        wait(pause), byte(0xB0), byte(7), byte(100);
    }
    wait(0), byte(0xFF), byte(0x2F), byte(0);
    const auto size = static_cast<unsigned>(track.size());
    std::string file("MThd\0\0\0\6\0\0\0\1\1\xE0MTrk", 18);
    for (int shift = 24; shift >= 0; shift -= 8)
        file += static_cast<char>(size >> shift & 0xFF);
    return file + track;
}

// The line through points that outliers pull least: the median of all slopes, then of what is left (Theil
// 1950, Sen 1968). Its value at 1.
double robust_line_at_one(const std::vector<std::pair<double, double>>& points) {
    const auto median = [](std::vector<double> values) {
        std::sort(values.begin(), values.end());
        return 0.5 * (values[values.size() / 2] + values[(values.size() - 1) / 2]);
    };
    std::vector<double> slopes, levels;
    for (const auto& [x, y] : points)
        for (const auto& [other_x, other_y] : points)
            if (other_x > x)
                slopes.push_back((other_y - y) / (other_x - x));
    const double slope = median(slopes);
    for (const auto& [x, y] : points)
        levels.push_back(y - slope * (x - 1.0));
    return median(levels);
}

// Partials as peaks of a second's transform under Blackman's window, padded to 2^18 (5.9 times), by a
// parabola through the logarithms; ln(f_n / n) against n² is then a line.
double long_window_hz(const Sound& sound, double expected_hz) {
    const auto from = static_cast<std::size_t>(0.3 * real_rate_hz);
    const auto count = static_cast<std::size_t>(1.0 * real_rate_hz);
    const std::size_t padded = 1U << 18U;
    double* in = fftw_alloc_real(padded);
    fftw_complex* out = fftw_alloc_complex(padded / 2 + 1);
    fftw_plan plan = fftw_plan_dft_r2c_1d(static_cast<int>(padded), in, out, FFTW_ESTIMATE);
    std::fill(in, in + padded, 0.0);
    for (std::size_t i = 0; i < count && from + i < sound.size(); ++i) {
        const double x = 2.0 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(count);
        in[i] = static_cast<double>(sound[from + i]) * (0.42 - 0.5 * std::cos(x) + 0.08 * std::cos(2.0 * x));
    }
    fftw_execute(plan);
    const double step = real_rate_hz / static_cast<double>(padded);
    const auto power = [&](std::size_t k) {
        return std::log(out[k][0] * out[k][0] + out[k][1] * out[k][1] + 1e-30);
    };
    double top = -1e9;
    std::vector<std::pair<double, double>> points;
    for (int pass = 0; pass < 2; ++pass)
        for (int n = 1; n <= 12; ++n) {
            const double near = n * expected_hz * std::sqrt(1.0 + 5e-5 * n * n);
            std::size_t best = 0;
            for (auto k = static_cast<std::size_t>(near * 0.985 / step);
                 k <= static_cast<std::size_t>(near * 1.02 / step); ++k)
                if (best == 0 || power(k) > power(best))
                    best = k;
            if (pass == 0) {
                top = std::max(top, power(best));
                continue;
            }
            if (power(best) < top - 9.0) // 40 dB down
                continue;
            const double l = power(best - 1), m = power(best), r = power(best + 1);
            const double hz = step * (static_cast<double>(best) + 0.5 * (l - r) / (l - 2.0 * m + r));
            points.emplace_back(n * n, std::log(hz / n));
        }
    fftw_destroy_plan(plan);
    fftw_free(in);
    fftw_free(out);
    return std::exp(robust_line_at_one(points));
}

} // namespace

std::vector<RealNote> real_notes(int program, const std::vector<int>& keys, const std::string& folder) {
    const std::string midi = folder + "/notes.mid", wav = folder + "/notes.wav";
    std::ofstream(midi, std::ios::binary) << midi_of(program, keys);
    const std::string call = "fluidsynth -ni -q -R 0 -C 0 -g 0.8 -r 44100 -O float -F '" + wav + "' " +
                             soundfont + " '" + midi + "' >/dev/null 2>&1";
    if (!std::ifstream(soundfont) || std::system(call.c_str()) != 0)
        return {};
    std::ifstream file(wav, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), {}};
    const WavRead read = read_wav({reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size()});
    std::vector<RealNote> notes;
    for (std::size_t i = 0; i < keys.size(); ++i) {
        const auto from = static_cast<std::size_t>(note_s * real_rate_hz * static_cast<double>(i));
        const auto to = from + static_cast<std::size_t>(0.88 * note_s * real_rate_hz);
        if (to > read.samples.size())
            return {};
        RealNote note;
        note.key = keys[i];
        note.sound.assign(read.samples.begin() + static_cast<std::ptrdiff_t>(from),
                          read.samples.begin() + static_cast<std::ptrdiff_t>(to));
        note.hz = long_window_hz(note.sound, 440.0 * std::exp2((note.key - 69) / 12.0));
        notes.push_back(std::move(note));
    }
    return notes;
}

// Between samples by a windowed sinc of 32.
Sound raised(const Sound& sound, double cents) {
    const double speed = std::exp2(cents / 1200.0);
    Sound out;
    for (double at = 0.0; at < static_cast<double>(sound.size()) - 1.0; at += speed) {
        const auto left = static_cast<std::ptrdiff_t>(at);
        double sum = 0.0;
        for (std::ptrdiff_t k = -15; k <= 16; ++k) {
            const std::ptrdiff_t i = left + k;
            if (i < 0 || i >= static_cast<std::ptrdiff_t>(sound.size()))
                continue;
            const double x = at - static_cast<double>(i);
            const double sinc =
                std::abs(x) < 1e-9 ? 1.0 : std::sin(std::numbers::pi * x) / (std::numbers::pi * x);
            const double window = 0.5 + 0.5 * std::cos(std::numbers::pi * x / 17.0);
            sum += static_cast<double>(sound[static_cast<std::size_t>(i)]) * sinc * window;
        }
        out.push_back(static_cast<float>(sum));
    }
    return out;
}

} // namespace counterpull::test
