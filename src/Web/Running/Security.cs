namespace KittingBee.Web.Running;

/// <summary>What every answer carries, and who is answered at all.</summary>
public static class Security
{
    /// <summary>Answers only to this machine's own names, so that a page elsewhere cannot reach the guild through a name of its own.</summary>
    public static void RefuseForeignHosts(this WebApplicationBuilder builder) =>
        builder.Configuration["AllowedHosts"] = "localhost;127.0.0.1;[::1]";

    /// <summary>Scripts, styles and pictures come from the program itself; nothing inline runs and nobody may frame a page.</summary>
    public static HeaderPolicyCollection Headers() => new HeaderPolicyCollection()
        .AddDefaultSecurityHeaders()
        .AddContentSecurityPolicy(policy =>
        {
            policy.AddDefaultSrc().Self();
            policy.AddImgSrc().Self().Data();
            policy.AddObjectSrc().None();
            policy.AddBaseUri().Self();
            policy.AddFormAction().Self();
            policy.AddFrameAncestors().None();
        })
        .AddPermissionsPolicy(policy =>
        {
            // The camera reads the labels of bags; nothing else of the device is ever asked for.
            policy.AddCamera().Self();
            policy.AddMicrophone().None();
            policy.AddGeolocation().None();
            policy.AddDisplayCapture().None();
        })
        .AddReferrerPolicySameOrigin();
}
