using System.Xml.Linq;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Recommender.Storage.Access;

namespace Recommender.Pages.Hosting;

/// <summary>Keys of form tokens and sign-ins in the store, so that they outlive a restart and hold on every program of the store.</summary>
/// <param name="store">Keeps them.</param>
/// <param name="clock">Gives the time.</param>
internal sealed class StoredProtectionKeys(ProtectionKeyStore store, TimeProvider clock) : IXmlRepository
{
    // The framework asks rarely, and can only wait.
    /// <inheritdoc/>
    public IReadOnlyCollection<XElement> GetAllElements() => [.. Task.Run(store.ReadAll).GetAwaiter().GetResult().Select(XElement.Parse)];

    /// <inheritdoc/>
    public void StoreElement(XElement element, string friendlyName) =>
        Task.Run(() => store.Add(friendlyName, element.ToString(SaveOptions.DisableFormatting), clock.GetUtcNow())).GetAwaiter().GetResult();
}
