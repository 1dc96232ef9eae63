using Recommender.Api.Hosting;
using Recommender.Domain.Decisions;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Commands;

/// <summary>Walks every chain of a store and tells whether it was changed, without a running service; one may run beside it.</summary>
public static class VerifyCommand
{
    /// <summary>The command.</summary>
    public const string Name = "verify";

    /// <summary>Walks the chains.</summary>
    /// <param name="configuration">Gives the store.</param>
    /// <param name="output">Takes the report, a line an organisation.</param>
    /// <param name="error">Takes what keeps it from running.</param>
    /// <returns>Exit code: 0 every chain holds, 1 one does not, 2 the store cannot be read.</returns>
    public static async Task<int> Run(IConfiguration configuration, TextWriter output, TextWriter error)
    {
        try
        {
            var address = Settings.Of(configuration).Store;
            if (!address.HasStore())
            {
                throw new InvalidSettingException($"There is no store in {address}; set Storage__Path to its folder, or Storage__Provider and Storage__ConnectionString to its database.");
            }

            using var store = address.Open();
            var verifier = new ChainVerifier(store, new Packings(store));
            var broken = false;
            foreach (var organisation in await verifier.Organisations())
            {
                var check = await verifier.Verify(organisation);
                broken |= check.FirstBroken is not null;
                await output.WriteLineAsync(check.FirstBroken is { } found
                    ? $"{organisation}: BROKEN at {found.Position}{(found.DecisionId is { } id ? $" (decision {id})" : "")}. {found.Problem} {check.Checked} records before it fit; head {RecordHash.Hex(check.Head.Span)}."
                    : $"{organisation}: intact, {check.Checked} records; head {RecordHash.Hex(check.Head.Span)}.");
            }

            return broken ? 1 : 0;
        }
        catch (Exception e) when (e is InvalidSettingException or StoreUnavailableException)
        {
            await error.WriteLineAsync(e.Message);
            return 2;
        }
    }
}
