using MathNet.Numerics;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;
using MathNet.Numerics.RootFinding;
using Recommender.Domain.Needs.Measures;

namespace Recommender.Domain.Tests.Needs.Measures;

/// <summary>Our fits against MathNet.Numerics 5.0.0: least squares, a nonlinear minimiser (downhill simplex), root finding (Brent) and one-dimensional search.</summary>
public sealed class ReferenceLibraryTests
{
    [Fact]
    public void A_line_is_the_line_of_least_squares()
    {
        var random = new Random(11);
        for (var round = 0; round < 200; round++)
        {
            var x = Enumerable.Range(0, random.Next(2, 20)).Select(i => i + random.NextDouble()).ToArray();
            var y = x.Select(v => (random.NextDouble() * 10) - (3 * v)).ToArray();

            var ours = LinearFit.Of(x, y);

            var (intercept, slope) = Fit.Line(x, y);
            Assert.Equal(intercept, ours.Intercept, 1e-8);
            Assert.Equal(slope, ours.Slope, 1e-8);
            Assert.Equal(GoodnessOfFit.RSquared(x.Select(v => intercept + (slope * v)), y), ours.Fit, 1e-8);
        }
    }

    [Fact]
    public void A_jump_height_is_the_integral_of_the_fall()
    {
        // Half the flight is a fall from rest: the height is the integral of g t.
        foreach (var flight in new[] { 0.3, 0.52, 0.8 })
        {
            Assert.Equal(Integrate.OnClosedInterval(t => Gravity.Standard * t, 0, flight / 2), JumpHeight.FromFlight(flight), 1e-9);
            Assert.Equal(flight, JumpHeight.Flight(JumpHeight.FromFlight(flight)), 1e-12);
        }
    }

    [Fact]
    public void The_time_at_a_distance_solves_the_distance_at_a_time()
    {
        foreach (var fit in new[] { new SprintFit(7, 0.6, 0), new SprintFit(10, 1.25, 0), new SprintFit(12.4, 1.6, 0) })
        {
            foreach (var metres in new[] { 0.01, 1, 5, 10, 30, 60, 200 })
            {
                var time = Brent.FindRoot(t => (fit.TopSpeed * (t + (fit.TimeConstant * Math.Exp(-t / fit.TimeConstant)))) - (fit.TopSpeed * fit.TimeConstant) - metres, 1e-6, 100, 1e-12);
                Assert.Equal(time, fit.TimeAt(metres), 1e-7);
            }
        }
    }

    [Fact]
    public void A_sprint_fit_is_the_least_of_the_squared_time_residuals()
    {
        var random = new Random(7);
        double[] marks = [5, 10, 15, 20, 30, 40, 60];
        var tried = 0;
        for (var round = 0; round < 60; round++)
        {
            var truth = new SprintFit(7 + (5 * random.NextDouble()), 0.7 + (0.9 * random.NextDouble()), 0);
            var used = marks[..random.Next(4, marks.Length + 1)];
            var times = used.Select(d => truth.TimeAt(d) + (0.02 * (random.NextDouble() - 0.5))).ToArray();

            var ours = SprintFit.Of([.. used.Zip(times)])!.Value;

            var objective = ObjectiveFunction.Value(p => p[0] <= 0 || p[1] <= 0 ? double.MaxValue : Sum(new SprintFit(p[0], p[1], 0)));
            var theirs = NelderMeadSimplex.Minimum(objective, Vector<double>.Build.DenseOfArray([9, 1.0]), 1e-11, 20_000);
            Assert.Equal(theirs.MinimizingPoint[0], ours.TopSpeed, 0.001);
            Assert.Equal(theirs.MinimizingPoint[1], ours.TimeConstant, 0.001);
            Assert.True(Sum(ours) <= Sum(new SprintFit(theirs.MinimizingPoint[0], theirs.MinimizingPoint[1], 0)) + 1e-9, "the library found a better fit");
            tried++;

            double Sum(SprintFit fit) => used.Zip(times).Sum(s => Math.Pow(s.Second - fit.TimeAt(s.First), 2));
        }

        Assert.Equal(60, tried);
    }

    [Fact]
    public void The_optimal_slope_is_where_the_take_off_is_fastest()
    {
        // The closed form is recalled, so the search is the judge: no printed value is.
        foreach (var power in new[] { 15.0, 20, 25, 25.4867, 30, 35, 40 })
        {
            foreach (var pushOff in new[] { 0.25, 0.3, 0.35, 0.4, 0.5 })
            {
                var flattest = -Gravity.Standard * Gravity.Standard / (4 * power);
                var searched = FindMinimum.OfScalarFunctionConstrained(slope => -VerticalProfile.TakeOffSpeed(power, slope, pushOff), -60, flattest * 1.001, 1e-8, 2000);
                Assert.Equal(searched, VerticalProfile.OptimalSlope(power, pushOff), 0.001);
            }
        }
    }

    [Fact]
    public void Splits_at_a_steady_speed_show_no_acceleration() => Assert.Null(SprintFit.Of([(10, 1.0), (20, 2.0), (30, 3.0), (40, 4.0)]));

    [Fact]
    public void Jumps_that_do_not_fall_with_load_give_no_profile()
    {
        Assert.Null(VerticalProfile.Of([(0, 0.30), (20, 0.36), (40, 0.42)], 75, 0.4));
        Assert.Null(VerticalProfile.Of([(0, 0.30), (20, 0.30)], 75, 0.4));
    }
}
