using CsCheck;
using Recommender.Domain.Eligibility;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

/// <summary>Marking runs over columns; it must say what the gate says of each exercise.</summary>
public sealed class MarkTests
{
    [Fact]
    public void Every_gate_marks_what_it_refuses_and_nothing_else() =>
        RequestGenerator.Requests.Sample(
            request =>
            {
                var context = Stages.Of(request).GateContext;
                foreach (var gate in EligibilityFilter.Gates.Where(g => g.Asks(context)))
                {
                    var refused = new uint[TestEdition.Current.Catalogue.Count];
                    Array.Fill(refused, 1U << 30);
                    var count = gate.Mark(context, refused, 2);
                    Assert.Equal(Enumerable.Range(0, refused.Length).Select(e => gate.Refuses(context, e) ? (1U << 30) | 2 : 1U << 30), refused);
                    Assert.Equal(refused.Count(r => (r & 2) != 0), count);
                }
            },
            iter: 400);
}
