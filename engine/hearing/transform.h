// The fast Fourier transform: an own small one, so that the engine needs no library for it (tests hold it
// against one).
#pragma once

#include <cstddef>
#include <vector>

namespace counterpull {

// A complex number without the library's care for infinities, which costs a call for each product.
struct Complex {
    double re = 0.0;
    double im = 0.0;
};
inline Complex operator+(Complex a, Complex b) {
    return {a.re + b.re, a.im + b.im};
}
inline Complex operator-(Complex a, Complex b) {
    return {a.re - b.re, a.im - b.im};
}
inline Complex operator*(Complex a, Complex b) {
    return {a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re};
}
inline Complex operator*(double factor, Complex a) {
    return {factor * a.re, factor * a.im};
}
inline Complex conjugate(Complex a) {
    return {a.re, -a.im};
}
inline double squared(Complex a) { // |a|²
    return a.re * a.re + a.im * a.im;
}

// X[k] = Σ x[j] e^(−2πi jk/n) for one n, a power of two.
class Transform {
  public:
    explicit Transform(std::size_t size);
    std::size_t size() const { return size_; }
    void forward(std::vector<Complex>& values) const; // in place; as many values as size()

  private:
    std::size_t size_;
    std::vector<Complex> turns_; // e^(−2πi k/n) for the first half of k
};

// The least power of two that is not below `least`.
std::size_t power_of_two(std::size_t least);

} // namespace counterpull
