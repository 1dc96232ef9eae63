using System.Xml.Linq;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Recommender.Storage;
using Recommender.Storage.Access;

namespace Recommender.Api.Hosting;

/// <summary>
/// Keeps the keys that form tokens are made with: in the folder of the embedded store, or in the database that replicas share, so that a form of one is taken by another.
/// </summary>
public static class FormKeys
{
    /// <summary>Says where the keys are kept.</summary>
    public static Action<IDataProtectionBuilder> KeptBy(Settings settings) => keys =>
    {
        if (settings.Store.IsShared)
        {
            keys.Services.AddOptions<KeyManagementOptions>().Configure<Store>((options, store) => options.XmlRepository = new InStore(new FormKeyStore(store)));
        }
        else
        {
            keys.PersistKeysToFileSystem(new DirectoryInfo(Path.Combine(settings.StorageFolder, "form-keys")));
        }
    };

    private sealed class InStore(FormKeyStore keys) : IXmlRepository
    {
        public IReadOnlyCollection<XElement> GetAllElements() => [.. keys.Read().Select(XElement.Parse)];

        public void StoreElement(XElement element, string friendlyName) => keys.Keep(friendlyName, element.ToString(SaveOptions.DisableFormatting));
    }
}
